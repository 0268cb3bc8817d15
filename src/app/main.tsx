/** Where the page begins. */

import '@fontsource-variable/literata/wght.css';
import '@fontsource-variable/source-sans-3/wght.css';
import './look/tokens.css';
import './look/base.css';
import './look/tables.css';
import './look/parts.css';
import './look/shell.css';
import './look/print.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App.tsx';
import { AppProvider } from './state/app-context.tsx';
import { keepForOffline } from './state/new-version.ts';
import { isOneFile } from './storage/one-file.ts';

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <AppProvider>
      <App />
    </AppProvider>
  </StrictMode>,
);

if (import.meta.env.PROD && !isOneFile() && 'serviceWorker' in navigator)
  addEventListener('load', () => keepForOffline(navigator.serviceWorker));
