/** The service worker, run in a made-up browser: a new version takes nothing away from a page that is open. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import {
  keepForOffline,
  newVersionWaits,
  openNewVersion,
} from '../../../src/app/state/new-version.ts';

const TEMPLATE = readFileSync(
  join(import.meta.dirname, '../../../src/app/worker/offline.js'),
  'utf8',
);
const ORIGIN = 'http://localhost:7420';

type Fire = (name: string, event?: Record<string, unknown>) => Promise<unknown>;

/** What all versions share: the caches and the open windows. */
class Browser {
  caches = new Map<string, Map<string, string>>();
  windows: { id: string }[] = [];
  online = true;

  /** A version with these files; each holds the version's name. */
  version(name: string, files: string[]) {
    const handlers = new Map<string, (event: unknown) => void>();
    const worker = {
      skipped: false,
      registration: { installing: null, waiting: null } as Record<string, unknown>,
    };
    const key = (request: string | { url: string }) =>
      new URL(typeof request === 'string' ? request : request.url, `${ORIGIN}/`).pathname;
    const cacheOf = (cache: string) => {
      const held = this.caches.get(cache) ?? new Map<string, string>();
      this.caches.set(cache, held);
      return {
        addAll: async (all: string[]) => {
          for (const f of all) held.set(key(f), `${name} ${f}`);
        },
        match: async (request: string | { url: string }) => held.get(key(request)),
      };
    };
    const self = {
      location: { origin: ORIGIN },
      registration: worker.registration,
      addEventListener: (type: string, handler: (event: unknown) => void) =>
        handlers.set(type, handler),
      skipWaiting: async () => {
        worker.skipped = true;
      },
      clients: { matchAll: async () => this.windows, claim: async () => {} },
    };
    const caches = {
      open: async (cache: string) => cacheOf(cache),
      keys: async () => [...this.caches.keys()],
      delete: async (cache: string) => this.caches.delete(cache),
      match: async (request: { url: string }) =>
        [...this.caches.values()]
          .map((held) => held.get(key(request)))
          .find((found) => found !== undefined),
    };
    const fetch = async () => {
      if (!this.online) throw new Error('no network');
      return 'from the network';
    };
    const source = TEMPLATE.replace('__CACHE__', `shell-${name}`).replace(
      "['__FILES__']",
      JSON.stringify(files),
    );
    runInNewContext(source, { self, caches, fetch, URL, Response: { error: () => 'no answer' } });
    const fire: Fire = async (type, event = {}) => {
      const waits: Promise<unknown>[] = [];
      let answer: unknown;
      handlers.get(type)?.({
        ...event,
        waitUntil: (promise: Promise<unknown>) => waits.push(promise),
        respondWith: (promise: Promise<unknown>) => {
          answer = promise;
        },
      });
      await Promise.all(waits);
      return answer;
    };
    return { ...worker, worker, fire };
  }

  /** The earlier version in control of one open page, the later one installed. */
  async updated() {
    const old = this.version('old', ['./', 'assets/app-1.js', 'assets/map-1.js']);
    await old.fire('install');
    await old.fire('activate');
    this.windows = [{ id: 'a' }];
    const late = this.version('new', ['./', 'assets/app-2.js', 'assets/map-2.js']);
    await late.fire('install');
    return { old, late };
  }
}

const file = (name: string, mode = 'no-cors') => ({
  request: { method: 'GET', mode, url: `${ORIGIN}/${name}` },
});

describe('a new version of the page', () => {
  it('waits: the open page finds its late parts without a network', async () => {
    const browser = new Browser();
    const { old, late } = await browser.updated();
    expect(late.worker.skipped).toBe(false);
    browser.online = false;
    expect(await old.fire('fetch', file('assets/map-1.js'))).toBe('old assets/map-1.js');
    expect(await old.fire('fetch', file('', 'navigate'))).toBe('old ./');
  });

  it('is not swept away by the version that it will replace', async () => {
    const browser = new Browser();
    const { old, late } = await browser.updated();
    old.worker.registration.waiting = late;
    await old.fire('fetch', {
      ...file('', 'navigate'),
      replacesClientId: 'a',
      resultingClientId: 'b',
    });
    expect([...browser.caches.keys()]).toEqual(['shell-old', 'shell-new']);
  });

  it('takes over when it is asked to, and keeps the old files while another old page is open', async () => {
    const browser = new Browser();
    const { late } = await browser.updated();
    browser.windows.push({ id: 'other' });
    await late.fire('message', { data: { ask: 'take over' } });
    expect(late.worker.skipped).toBe(true);
    await late.fire('activate');
    browser.online = false;
    expect(await late.fire('fetch', file('assets/map-1.js'))).toBe('old assets/map-1.js');
    expect(await late.fire('fetch', file('', 'navigate'))).toBe('new ./');
    // the other page is left, the first one opened anew
    browser.windows = [{ id: 'a' }, { id: 'b' }];
    await late.fire('fetch', {
      ...file('', 'navigate'),
      replacesClientId: 'a',
      resultingClientId: 'b',
    });
    expect([...browser.caches.keys()]).toEqual(['shell-new']);
  });

  it('drops the old files when every old page has been left', async () => {
    const browser = new Browser();
    const { late } = await browser.updated();
    browser.windows = [];
    await late.fire('activate');
    expect([...browser.caches.keys()]).toEqual(['shell-new']);
  });

  it.each([
    ['assets/app-1.js', 1, false, false],
    ['assets/app-2.js', 1, true, true],
    ['assets/app-2.js', 2, true, false],
  ])(
    'asked by a page of %s, one of %i: same %s, takes over %s',
    async (script, pages, same, takesOver) => {
      const browser = new Browser();
      const { late } = await browser.updated();
      browser.windows = Array.from({ length: pages }, (_, i) => ({ id: String(i) }));
      const told: unknown[] = [];
      await late.fire('message', {
        data: { ask: 'same version', script: `${ORIGIN}/${script}` },
        ports: [{ postMessage: (answer: unknown) => told.push(answer) }],
      });
      expect(told).toEqual([same]);
      expect(late.worker.skipped).toBe(takesOver);
    },
  );
});

describe('the page', () => {
  /** A worker that waits and says whether the page is of its version. */
  const waiting = (same: boolean, asked: unknown[]) =>
    Object.assign(new EventTarget(), {
      postMessage(message: unknown, [port]: MessagePort[] = []) {
        asked.push(message);
        port?.postMessage(same);
      },
    });
  const containerOf = (registration: object) => ({
    controller: {} as ServiceWorker,
    register: async () =>
      Object.assign(new EventTarget(), {
        installing: null,
        ...registration,
      }) as ServiceWorkerRegistration,
  });

  it('tells of one that waits only where it is another version, and opens it once that is in control', async () => {
    const asked: unknown[] = [];
    await keepForOffline(containerOf({ waiting: waiting(true, asked) }), 'app-1.js');
    await new Promise((done) => setTimeout(done, 20));
    expect(newVersionWaits()).toBe(false);
    await keepForOffline(containerOf({ waiting: waiting(false, asked) }), 'app-1.js');
    await expect.poll(() => newVersionWaits()).toBe(true);
    const question = { ask: 'same version', script: 'app-1.js' };
    expect(asked).toEqual([question, question]);
    const container = new EventTarget();
    let reloads = 0;
    openNewVersion(container, () => reloads++);
    expect([asked.at(-1), reloads]).toEqual([{ ask: 'take over' }, 0]);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reloads).toBe(1);
  });

  it('opens the page anew, once, also where the new version is held up', async () => {
    await keepForOffline(containerOf({ waiting: waiting(false, []) }), 'app-1.js');
    await expect.poll(() => newVersionWaits()).toBe(true);
    const container = new EventTarget();
    let reloads = 0;
    openNewVersion(container, () => reloads++, 20);
    await expect.poll(() => reloads).toBe(1);
    container.dispatchEvent(new Event('controllerchange'));
    expect(reloads).toBe(1);
  });
});
