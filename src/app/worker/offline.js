/**
 * Service worker, a template filled by the build: every built file is kept, so that the application opens at a lake without
 * a signal. The page itself is asked for first and taken from the cache when nobody answers. A served survey is never kept:
 * the application stores what it opened.
 */

const CACHE = '__CACHE__';
const FILES = ['__FILES__'];

self.addEventListener('install', (event) => {
  const fill = async () => (await caches.open(CACHE)).addAll(FILES);
  event.waitUntil(fill().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  const drop = async () => {
    for (const name of await caches.keys())
      if (name.startsWith('shell-') && name !== CACHE) await caches.delete(name);
    await self.clients.claim();
  };
  event.waitUntil(drop());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (url.pathname.includes('/survey/')) return;
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request));
});

async function page(request) {
  try {
    return await fetch(request);
  } catch {
    return (await caches.match('./', { ignoreSearch: true })) ?? Response.error();
  }
}

async function file(request) {
  return (await caches.match(request, { ignoreSearch: true })) ?? (await fetch(request));
}
