/** A browser to test in: Debian's Chromium with software graphics, its own profile, and everything that is asked of a network noted. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from 'playwright-core';

export const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Why the browser tests cannot run; null when they can. */
export const NO_BROWSER = existsSync(CHROMIUM)
  ? null
  : `the tests in a browser need ${CHROMIUM} (Debian: chromium)`;

/** For one test on a machine that draws in software and runs other tests beside; alone they take a few seconds each. */
export const PATIENCE_MS = 240_000;

const ARGS = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Look {
  width?: number;
  height?: number;
  dark?: boolean;
  /** pixels drawn for each of the page's own */
  scale?: number;
}

/** Software draws every pixel of the map: coarsely, unless somebody wants pictures to look at. */
const COARSE = process.env.SCREENS ? 1 : 0.5;

/** A small window, where looks are not the point. */
export const SMALL: Look = { width: 1024, height: 640 };

export interface TestBrowser {
  page: Page;
  context: BrowserContext;
  profile: string;
  /** origins that anything was asked of */
  origins: Set<string>;
  /** what the page complained of: errors thrown, and errors in the console (a broken policy is one) */
  complaints: string[];
  close(): Promise<void>;
  /** the whole browser dies at once, as in a power cut */
  kill(): Promise<void>;
}

/** Opens a browser; with `profile` the one that a killed browser left behind. */
export async function openBrowser(
  { width = 1440, height = 900, dark = false, scale = COARSE }: Look = {},
  profile?: string,
): Promise<TestBrowser> {
  const folder = profile ?? (await mkdtemp(join(tmpdir(), 'shoalwise-browser-')));
  const options: BrowserContextOptions = {
    viewport: { width, height },
    deviceScaleFactor: scale,
    colorScheme: dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    acceptDownloads: true,
    locale: 'en-GB',
    timezoneId: 'UTC',
  };
  const context = await chromium.launchPersistentContext(folder, {
    executablePath: CHROMIUM,
    args: ARGS,
    ...options,
  });
  const page = context.pages()[0] ?? (await context.newPage());
  const origins = new Set<string>();
  const complaints: string[] = [];
  context.on('request', (request) => {
    const { protocol, origin } = new URL(request.url());
    if (/^(https?|wss?):$/.test(protocol)) origins.add(origin);
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  const remove = () => rm(folder, { recursive: true, force: true, maxRetries: 5 });
  return {
    page,
    context,
    profile: folder,
    origins,
    complaints,
    async close() {
      await context.close();
      await remove();
    },
    async kill() {
      for (const pid of processesOf(folder)) process.kill(pid, 'SIGKILL');
      await context.close().catch(() => {});
    },
  };
}

/** Every process that was started with this profile, and their children, by number. */
function processesOf(profile: string): number[] {
  const all = processTable();
  const found = new Set(all.filter((p) => p.command.includes(profile)).map((p) => p.pid));
  for (let size = 0; size !== found.size; ) {
    size = found.size;
    for (const p of all) if (found.has(p.parent)) found.add(p.pid);
  }
  return [...found];
}

function processTable(): { pid: number; parent: number; command: string }[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((name) => {
      try {
        const status = readFileSync(`/proc/${name}/status`, 'utf8');
        const command = readFileSync(`/proc/${name}/cmdline`, 'utf8');
        const parent = Number(/^PPid:\s+(\d+)/m.exec(status)![1]);
        return [{ pid: Number(name), parent, command }];
      } catch {
        return []; // gone meanwhile
      }
    });
}
