/**
 * An area dragged on the map, in Debian's Chromium with software graphics: from a move of the hand to the new number on the
 * screen, on the demo lake and on 2.4 million cells.
 */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { AppPage } from '../browser/drivers/app-page.ts';
import {
  NO_BROWSER,
  openBrowser,
  PATIENCE_MS,
  type TestBrowser,
} from '../browser/drivers/chromium.ts';
import { serveFrom, type TestServer } from '../browser/drivers/server.ts';
import { bigLake } from './big-lake.ts';

/** Of the hand. */
const MOVES = 60;
const STEP_PX = 7;
/** The large lake is estimated in the page before an area has a number: minutes where others work beside. */
const OPENING = 4;
/** Without another number for so long the area holds the same wherever it is dragged to: it is not on the lake. */
const NO_NUMBER_MS = 30_000;

export default function benches(root: string, folder: string) {
  if (NO_BROWSER !== null) throw new Error(NO_BROWSER);
  const big = join(folder, 'big-lake');
  mkdirSync(big);
  for (const [name, text] of bigLake(1, 200)) writeFileSync(join(big, name), text);
  return [
    dragged(root, 'demo lake: from a move of the hand to the number', join(root, 'demo-lake')),
    dragged(root, '2.4 million cells: from a move of the hand to the number', big),
  ];
}

declare global {
  interface Window {
    /** put there by `timeToNumber` */
    timeToNumber: Promise<number>;
  }
}

function dragged(root: string, name: string, survey: string) {
  let open: { server: TestServer; browser: TestBrowser } | null = null;
  let at = { x: 0, y: 0 };
  let moves = 0;
  let size = '';
  const times: number[] = [];
  return {
    name,
    runs: MOVES,
    run: async () => {
      if (open === null) {
        const server = await serveFrom(root, survey);
        const browser = await openBrowser();
        open = { server, browser };
        const app = new AppPage(browser.page);
        browser.page.setDefaultTimeout(OPENING * PATIENCE_MS);
        await app.open(server.address);
        await app.go('areas');
        await app.mapDrawn();
        at = await drawn(browser.page);
        await browser.page.mouse.move(at.x, at.y);
        await browser.page.mouse.down();
      }
      const { page } = open.browser;
      // to and fro along a line, so that the area stays on the lake
      const step = moves % 8 < 4 ? 1 : -1;
      moves++;
      at = { x: at.x + step * STEP_PX, y: at.y };
      await timeToNumber(page);
      await page.mouse.move(at.x, at.y);
      const ms = await page.evaluate(() => window.timeToNumber);
      times.push(ms);
      size = (await page.locator('.area-slate p').nth(1).textContent())?.split(',')[0] ?? '';
      return ms;
    },
    note: () => {
      const sorted = times.slice(1).sort((a, b) => a - b);
      return `p95 ${sorted[Math.ceil(0.95 * sorted.length) - 1]?.toFixed(0)} ms; an area of ${size}`;
    },
    end: async () => {
      await open?.browser.page.mouse.up();
      await open?.browser.close();
      await open?.server.stop();
    },
  };
}

/** A square area is drawn off the middle of the map, where a lake has no deep water that nobody searched; the middle of the area. */
async function drawn(page: Page): Promise<{ x: number; y: number }> {
  const box = await page.locator('.map-canvas').boundingBox();
  if (box === null) throw new Error('got no map, expected one to draw on');
  const middle = { x: box.x + 0.35 * box.width, y: box.y + 0.3 * box.height };
  await page.getByRole('button', { name: 'Draw an area' }).click();
  for (const [dx, dy] of [
    [-30, -30],
    [30, -30],
    [30, 30],
    [-30, 30],
    [-30, -30],
  ] as const) {
    await page.mouse.move(middle.x + dx, middle.y + dy);
    await page.mouse.click(middle.x + dx, middle.y + dy);
  }
  await page.waitForSelector('.area-chosen h2');
  await page.waitForTimeout(2_000);
  return middle;
}

/** From the next move of the pointer until the slate says something else and is drawn, in the page's own time. */
async function timeToNumber(page: Page): Promise<void> {
  await page.evaluate((patienceMs) => {
    const slate = document.querySelector('.area-slate');
    if (slate === null) throw new Error('got no slate, expected the numbers of an area');
    window.timeToNumber = new Promise((done, fail) => {
      let start = 0;
      setTimeout(() => fail(new Error(`got the same numbers for ${patienceMs} ms`)), patienceMs);
      addEventListener(
        'mousemove',
        () => {
          start = performance.now();
        },
        { capture: true, once: true },
      );
      const watch = new MutationObserver(() => {
        if (start === 0) return;
        watch.disconnect();
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
      });
      watch.observe(slate, { subtree: true, childList: true, characterData: true });
    });
    // told where it is awaited
    window.timeToNumber.catch(() => {});
  }, NO_NUMBER_MS);
}
