/** Where the page begins. */

import '@fontsource-variable/literata/wght.css';
import '@fontsource-variable/source-sans-3/wght.css';
import './look/tokens.css';
import './look/base.css';
import './look/parts.css';
import './look/shell.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { AppProvider } from './state/app-context.tsx';

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <AppProvider>
      <App />
    </AppProvider>
  </StrictMode>,
);

/** A browser that was killed may need a moment to set its storage right. */
const AGAIN_MS = 10_000;

/** Keeps the page for when there is no network; fetched after the page itself, so as not to hold it up. */
function keepForOffline(attempts: number): void {
  navigator.serviceWorker.register('./sw.js').catch(() => {
    if (attempts > 1) setTimeout(() => keepForOffline(attempts - 1), AGAIN_MS);
  });
}

if (import.meta.env.PROD && 'serviceWorker' in navigator)
  addEventListener('load', () => keepForOffline(3));
