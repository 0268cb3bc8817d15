/** A lake of more than a million cells: the page stays responsive while it is read, estimated, painted and moved. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bigLake } from '../bench/big-lake.ts';
import { testFolder } from '../helpers/folder.ts';
import { AppPage } from './drivers/app-page.ts';
import { NO_BROWSER, openBrowser, PATIENCE_MS, type TestBrowser } from './drivers/chromium.ts';
import { heldUp, heldUpWords, type Task, watchTasks } from './drivers/held-up.ts';
import { picture } from './drivers/picture.ts';
import { serveFolder, type TestServer } from './drivers/server.ts';

/** 6,000 ha in cells of 7 m: 1.2 million of them on the lake. */
const CELL_M = 7;
/**
 * Of the page's own work, waiting for graphics left out. Not a measure of speed, which the machine and what runs beside decide: read, estimated or painted on the page's own thread,
 * this lake would hold it up for several seconds at a time.
 */
const WORK_ON_THE_PAGE_MS = 1_500;

describe.skipIf(NO_BROWSER !== null)(
  `a lake of a million cells${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    let server: TestServer;
    let browser: TestBrowser;
    let app: AppPage;
    let stopWatching: () => Promise<Task[]>;

    beforeAll(async () => {
      const folder = join(testFolder(), 'large-lake');
      mkdirSync(folder);
      for (const [name, text] of bigLake()) writeFileSync(join(folder, name), text);
      writeFileSync(join(folder, 'analysis.json'), JSON.stringify({ map: { cell_m: CELL_M } }));
      server = await serveFolder(folder);
      browser = await openBrowser();
      app = new AppPage(browser.page);
      stopWatching = await watchTasks(await browser.context.newCDPSession(browser.page));
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
    });

    it('can be walked through while it is being estimated', async () => {
      await browser.page.goto(server.address);
      const { page } = browser;
      await page
        .getByRole('navigation', { name: 'Stations' })
        .getByRole('button', { name: 'Transects' })
        .click();
      await page.waitForSelector(
        '.shell[data-run="working"][data-station="transects"] .station h1',
      );
      await app.settled();
    });

    it('can be stopped while it is being estimated, and be estimated again', async () => {
      const { page } = browser;
      await app.go('survey');
      await app.changeAndCancel('detections', 2, 'count', '77', 'sheet read again');
      const line = page.locator('.progress');
      expect(await line.innerText()).toContain('from before the last change');
      await line.getByRole('button', { name: 'Estimate' }).click();
      await page.waitForSelector('.shell[data-run="working"]');
      await app.settled();
      expect(await line.count()).toBe(0);
    });

    it('is drawn and moved without its work being done on the page', async () => {
      const { page } = browser;
      await app.go('lake');
      await app.mapDrawn();
      expect(await app.sentence()).toMatch(/^About [\d,]+ mussels/);
      await page.mouse.move(900, 450);
      await page.mouse.down();
      await page.mouse.move(1000, 500, { steps: 8 });
      await page.mouse.up();
      await page.mouse.wheel(0, -400);
      await app.mapDrawn();
      await picture(page, 'large-lake.png');
      const held = heldUp(await stopWatching());
      console.log(`large lake: ${heldUpWords(held)}`);
      expect(held.tasks).toBeGreaterThan(0);
      expect(held.longestWorkMs).toBeLessThan(WORK_ON_THE_PAGE_MS);
    });
  },
);
