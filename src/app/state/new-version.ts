/**
 * Keeps the page for when there is no network, and notices when a new version of it waits. This one keeps its files until it is
 * left: nothing changes under an open page, unless its reader asks for that.
 */

import { useSyncExternalStore } from 'react';

/** A browser that was killed may need a moment to set its storage right. */
const AGAIN_MS = 10_000;
const ATTEMPTS = 3;
/** A new version takes over only when the old one has no request left to answer, which may never be: then the page goes without. */
const TAKE_OVER_MS = 5_000;

/** What offline.js is asked. */
type Ask = { ask: 'same version'; script: string } | { ask: 'take over' };

/** The new version that waits while this page is open; null = none that is known. */
let next: ServiceWorker | null = null;
const listeners = new Set<() => void>();

/** Fetched after the page itself, so as not to hold it up. */
export async function keepForOffline(
  container: Pick<ServiceWorkerContainer, 'register' | 'controller'>,
  script: string = ownScript(),
): Promise<void> {
  const registration = await registered(container, ATTEMPTS);
  if (registration === null) return;
  const look = () => {
    // without one in control this is the first version that is kept, and nothing is replaced
    if (registration.waiting !== null && container.controller !== null)
      void compare(registration.waiting, script);
  };
  look();
  const follow = () => {
    registration.installing?.addEventListener('statechange', look);
  };
  follow();
  registration.addEventListener('updatefound', follow);
}

/** Whether a new version waits for this page to be left. */
export function useNewVersion(): boolean {
  return useSyncExternalStore(subscribe, newVersionWaits);
}

export function newVersionWaits(): boolean {
  return next !== null;
}

/** Lets the new version take over and opens the page in it; once, and also where it does not take over in time. */
export function openNewVersion(
  container: Pick<ServiceWorkerContainer, 'addEventListener'> = navigator.serviceWorker,
  reload: () => void = () => location.reload(),
  takeOverMs = TAKE_OVER_MS,
): void {
  if (next === null) return;
  let opened = false;
  const open = () => {
    if (opened) return;
    opened = true;
    reload();
  };
  container.addEventListener('controllerchange', open, { once: true });
  setTimeout(open, takeOverMs);
  next.postMessage({ ask: 'take over' } satisfies Ask);
}

async function registered(
  container: Pick<ServiceWorkerContainer, 'register'>,
  attempts: number,
): Promise<ServiceWorkerRegistration | null> {
  try {
    return await container.register('./sw.js');
  } catch {
    if (attempts <= 1) return null;
    await new Promise((done) => setTimeout(done, AGAIN_MS));
    return registered(container, attempts - 1);
  }
}

/** A page that came from the network may be of the new version already: then there is nothing to tell. */
async function compare(waiting: ServiceWorker, script: string): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  const same = new Promise<boolean>((done) => {
    port1.onmessage = (event: MessageEvent<boolean>) => done(event.data);
  });
  waiting.postMessage({ ask: 'same version', script } satisfies Ask, [port2]);
  next = (await same) ? null : waiting;
  port1.close();
  for (const told of listeners) told();
}

/** Its name has the state of the whole build in it. */
function ownScript(): string {
  return document.querySelector<HTMLScriptElement>('script[type="module"][src]')?.src ?? '';
}

function subscribe(told: () => void): () => void {
  listeners.add(told);
  return () => listeners.delete(told);
}
