/**
 * Service worker, a template filled by the build: every built file is kept, so that the application opens at a lake without
 * a signal. The page itself is asked for first and taken from the cache when nobody answers. A served survey is never kept:
 * the application stores what it opened.
 *
 * A new version waits while a page of an earlier one is open, and that page's files stay where they are: parts of it are
 * loaded late. It takes over when such a page is left, or asks for it.
 */

const CACHE = '__CACHE__';
const FILES = ['__FILES__'];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(tidy().then(() => self.clients.claim()));
});

self.addEventListener('message', (event) => {
  event.waitUntil(event.data.ask === 'take over' ? self.skipWaiting() : compare(event));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (url.pathname.includes('/survey/')) return;
  if (request.mode !== 'navigate') {
    event.respondWith(file(request));
    return;
  }
  event.respondWith(page(request));
  event.waitUntil(tidy(event.replacesClientId, event.resultingClientId));
});

/** Whether the page that asks is of this version, by its own script. If so, and no other page is open, nothing has to wait. */
async function compare({ data, ports }) {
  const same = (await own(data.script)) !== undefined;
  if (same && (await windows()).length < 2) await self.skipWaiting();
  ports[0].postMessage(same);
}

/** Drops the files of other versions once no page is open that may need them; those named do not count. */
async function tidy(...leaving) {
  const open = (await windows()).filter(({ id }) => !leaving.includes(id));
  if (open.length > (leaving.length === 0 ? 1 : 0)) return;
  const names = await caches.keys();
  // one of the others may be what a newer version waits with
  const { installing, waiting } = self.registration;
  if (installing || waiting) return;
  for (const name of names)
    if (name.startsWith('shell-') && name !== CACHE) await caches.delete(name);
}

function windows() {
  return self.clients.matchAll({ type: 'window', includeUncontrolled: true });
}

async function own(request) {
  return (await caches.open(CACHE)).match(request, { ignoreSearch: true });
}

async function page(request) {
  try {
    return await fetch(request);
  } catch {
    return (await own('./')) ?? Response.error();
  }
}

/** Of this version, else of one whose page is still open. */
async function file(request) {
  return (
    (await own(request)) ??
    (await caches.match(request, { ignoreSearch: true })) ??
    (await fetch(request))
  );
}
