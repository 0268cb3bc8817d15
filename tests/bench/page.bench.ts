/**
 * The application in Debian's Chromium with software graphics: from navigation to the lake's number, a changed choice, moving
 * the map; what held up the page meanwhile, and how much it had to load.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { AppPage } from '../browser/drivers/app-page.ts';
import { NO_BROWSER, openBrowser, type TestBrowser } from '../browser/drivers/chromium.ts';
import { type HeldUp, heldUp, heldUpWords, tasksDuring } from '../browser/drivers/held-up.ts';
import { watchLoading } from '../browser/drivers/loading.ts';
import { serveFrom, type TestServer } from '../browser/drivers/server.ts';
import { bigLake } from './big-lake.ts';

/** The first station, with its tables. */
const TABLES = '.shell[data-run="idle"] .sheet';
/** What is read on the lake's station when its number is there. */
const NUMBER = '.shell[data-run="idle"] .station h1:has-text("About")';
/** The browser and the second worker have settled. */
const QUIET_MS = 4_000;

export default function benches(root: string, folder: string) {
  if (NO_BROWSER !== null) throw new Error(NO_BROWSER);
  const demo = join(root, 'demo-lake');
  const big = join(folder, 'big-lake');
  mkdirSync(big);
  for (const [name, text] of bigLake(1, 200)) writeFileSync(join(big, name), text);
  return [
    navigation(root, 'demo lake: from navigation to the number', demo, '#lake', NUMBER, 5),
    navigation(root, 'demo lake: the same at the first station', demo, '', TABLES, 3),
    changedChoice(root, 'demo lake: from a changed choice to the new number', demo),
    moving(root, 'demo lake: the map moved and zoomed', demo),
    navigation(
      root,
      '2.4 million cells, 200 transects: from navigation to the number',
      big,
      '#lake',
      NUMBER,
      3,
    ),
    moving(root, '2.4 million cells, 200 transects: the map moved and zoomed', big),
    pointing(root, '2.4 million cells, 200 transects: along the depths of the curve', big),
  ];
}

/** Each time in a browser that has never seen the page. */
function navigation(
  root: string,
  name: string,
  survey: string,
  hash: string,
  awaited: string,
  runs: number,
) {
  let server: TestServer | null = null;
  let loaded = '';
  let worst: HeldUp | null = null;
  return {
    name,
    runs,
    run: async () => {
      server ??= await serveFrom(root, survey);
      const browser = await openBrowser();
      try {
        const app = new AppPage(browser.page);
        const sizes = watchLoading(browser);
        let ms = 0;
        const session = await browser.context.newCDPSession(browser.page);
        const tasks = await tasksDuring(session, async () => {
          const start = performance.now();
          await browser.page.goto(`${server!.address}${hash}`);
          await browser.page.waitForSelector(awaited);
          ms = performance.now() - start;
          await app.mapDrawn();
        });
        worst = worse(worst, heldUp(tasks));
        const { kB, fontsKB, files } = await sizes();
        loaded = `${kB.toFixed(0)} kB gzip loaded and ${fontsKB.toFixed(0)} kB of fonts, in ${files.length} files`;
        return ms;
      } finally {
        await browser.close();
      }
    },
    note: () => `${heldUpWords(worst!)}; ${loaded}`,
    end: async () => void (await server?.stop()),
  };
}

function changedChoice(root: string, name: string, survey: string) {
  let family = 'nb1';
  return onOpenPage(
    root,
    name,
    survey,
    9,
    async (page) => {
      const label = page.getByLabel('Count distribution');
      family = family === 'nb1' ? 'nb2' : 'nb1';
      await timeToRest(page);
      await label.selectOption(family);
      const ms = await page.evaluate(() => window.timeToRest);
      await page.waitForTimeout(QUIET_MS);
      return ms;
    },
    'density',
  );
}

declare global {
  interface Window {
    /** put there by `timeToRest` */
    timeToRest: Promise<number>;
  }
}

/** From the next change of a control until its new numbers are on the screen, in the page's own time. */
async function timeToRest(page: Page): Promise<void> {
  await page.evaluate(() => {
    const shell = document.querySelector<HTMLElement>('.shell')!;
    const timed: Promise<number> = new Promise((done) => {
      let start = 0;
      const change = () => {
        start = performance.now();
      };
      addEventListener('change', change, { capture: true, once: true });
      let worked = false;
      const watch = new MutationObserver(() => {
        if (shell.dataset.run === 'working') worked = true;
        if (!worked || shell.dataset.run !== 'idle') return;
        watch.disconnect();
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
      });
      watch.observe(shell, { attributes: true, attributeFilter: ['data-run'] });
    });
    Object.assign(window, { timeToRest: timed });
  });
}

function moving(root: string, name: string, survey: string) {
  return gesture(root, name, survey, async (page) => {
    await page.mouse.move(900, 450);
    await page.mouse.down();
    await page.mouse.move(1000, 500, { steps: 20 });
    await page.mouse.up();
    await page.mouse.wheel(0, -300);
    await page.mouse.wheel(0, 300);
  });
}

/** Every metre of depth lights its band on the map. */
function pointing(root: string, name: string, survey: string) {
  return gesture(root, name, survey, async (page) => {
    const curve = (await page.locator('.plot').last().boundingBox())!;
    for (let share = 0.1; share < 0.9; share += 0.05)
      await page.mouse.move(curve.x + curve.width / 2, curve.y + share * curve.height);
    await page.mouse.move(900, 450);
  });
}

/** On the lake's station, from the first move of the hand until the map has drawn all that follows. */
function gesture(root: string, name: string, survey: string, move: (page: Page) => Promise<void>) {
  return onOpenPage(
    root,
    name,
    survey,
    3,
    async (page, app) => {
      const start = performance.now();
      await move(page);
      await app.mapDrawn();
      return performance.now() - start;
    },
    'lake',
  );
}

/** One page for all runs; what the first one opened stays open. */
function onOpenPage(
  root: string,
  name: string,
  survey: string,
  runs: number,
  work: (page: Page, app: AppPage) => Promise<number>,
  station: 'density' | 'lake',
) {
  let open: { server: TestServer; browser: TestBrowser; app: AppPage } | null = null;
  let worst: HeldUp | null = null;
  return {
    name,
    runs,
    run: async () => {
      if (open === null) {
        const server = await serveFrom(root, survey);
        const browser = await openBrowser();
        const app = new AppPage(browser.page);
        open = { server, browser, app };
        await app.open(server.address);
        await app.go(station);
        await app.mapDrawn();
        await browser.page.waitForTimeout(QUIET_MS);
        return work(browser.page, app); // the run that warms up
      }
      const { browser, app } = open;
      let ms = 0;
      const session = await browser.context.newCDPSession(browser.page);
      const tasks = await tasksDuring(session, async () => {
        ms = await work(browser.page, app);
      });
      await session.detach();
      worst = worse(worst, heldUp(tasks));
      return ms;
    },
    note: () => heldUpWords(worst!),
    end: async () => {
      await open?.browser.close();
      await open?.server.stop();
    },
  };
}

function worse(a: HeldUp | null, b: HeldUp): HeldUp {
  return a === null || b.longestWorkMs > a.longestWorkMs ? b : a;
}
