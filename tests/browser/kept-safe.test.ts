/** What can take work away from under a reader: a second tab, a full disk, a folder that changes. Nothing is lost in silence. */

import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startServer } from '../../src/cli/server.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { AppPage } from './drivers/app-page.ts';
import {
  NO_BROWSER,
  openBrowser,
  PATIENCE_MS,
  SMALL,
  type TestBrowser,
} from './drivers/chromium.ts';
import { picture } from './drivers/picture.ts';
import { serveFolder, type TestServer } from './drivers/server.ts';

const ROOT = join(import.meta.dirname, '../..');

describe.skipIf(NO_BROWSER !== null)(
  `work is kept safe in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    const folder = join(testFolder(), 'minnow-pond');
    let server: TestServer;
    let browser: TestBrowser;
    let first: AppPage;
    let second: AppPage;

    beforeAll(async () => {
      mkdirSync(folder);
      for (const [name, text] of Object.entries(beltSurvey()))
        writeFileSync(join(folder, name), text);
      server = await serveFolder(folder);
      browser = await openBrowser(SMALL);
      first = new AppPage(browser.page);
      await first.open(server.address);
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
    });

    it('a second tab on the survey follows, and cannot change it in silence', async () => {
      second = new AppPage(await browser.context.newPage());
      await second.open(server.address);
      await second.page.getByText('what is kept there shows here').waitFor();
      await first.page.bringToFront();
      await first.correct('detections', 3, 'count', '7', 'sheet read again');
      await first.saved(1);
      await second.page.bringToFront();
      await second.page.getByText('1 change kept').waitFor();
      await second.settled();
      await picture(second.page, 'second-tab.png');
      await second.page.getByRole('button', { name: 'Undo' }).click();
      await second.page.getByText('Edit it there, or take over here first').waitFor();
      expect(await second.column()).toContain('1 change kept');
    });

    it('takes over when asked to; the other tab follows then', async () => {
      await second.page.getByRole('button', { name: 'Edit it here instead' }).click();
      await second.page.getByText('what is kept there shows here').waitFor({ state: 'detached' });
      await second.settled();
      await second.correct('detections', 4, 'count', '9', 'sheet read again');
      await second.saved(2);
      await first.page.bringToFront();
      await first.page.getByText('what is kept there shows here').waitFor();
      await first.page.getByText('2 changes kept').waitFor();
    });

    it('inherits the survey when the other tab is closed', async () => {
      await second.page.close();
      await first.page.getByText('what is kept there shows here').waitFor({ state: 'detached' });
      await first.settled();
      expect(await first.column()).toContain('2 changes kept');
      await first.correct('detections', 5, 'count', '3', 'sheet read again');
      await first.saved(3);
    });

    it('says when the browser cannot keep a change, offers the zip, and keeps it when there is room again', async () => {
      const { page } = browser;
      await page.evaluate(() => {
        const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = () => {
          throw new DOMException('the disk is full', 'QuotaExceededError');
        };
        (window as Window & { makeRoom?: () => void }).makeRoom = () => {
          IDBObjectStore.prototype.put = put;
        };
      });
      await first.correct('detections', 6, 'count', '4', 'sheet read again');
      await page.getByText('cannot keep the survey at the moment').waitFor();
      await picture(page, 'not-kept.png');
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save the survey as a zip' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('minnow-pond-survey.zip');
      await page.evaluate(() => (window as Window & { makeRoom?: () => void }).makeRoom?.());
      await page.getByText('cannot keep the survey at the moment').waitFor({ state: 'detached' });
      await first.saved(4);
      await page.reload();
      await first.settled();
      expect(await first.column()).toContain('4 changes kept');
    });

    it('tells that the served folder changed on disk, and carries the corrections over', async () => {
      const { page } = browser;
      const file = join(folder, 'detections.csv');
      const text = readFileSync(file, 'utf8');
      writeFileSync(file, text.replace(/(\r?\n)$/, '$1T2,primary,3.00,,2,,$1'));
      await page.getByText('has changed on disk since it was opened').waitFor();
      await picture(page, 'folder-changed.png');
      await page.getByRole('button', { name: 'Open it as it is now' }).click();
      await page.getByText('16 clusters').first().waitFor();
      await first.settled();
      expect(await first.column()).toContain('4 changes kept');
    });

    it('after a reload offers corrections that were made before the folder changed', async () => {
      const { page } = browser;
      await first.saved(4);
      await page.goto('about:blank');
      const file = join(folder, 'detections.csv');
      const text = readFileSync(file, 'utf8');
      writeFileSync(file, text.replace(/(\r?\n)$/, '$1T2,primary,5.00,,2,,$1'));
      await first.open(server.address);
      await page.getByText('since 4 corrections were made to it here').waitFor();
      expect(await first.column()).toContain('17 clusters');
      await page.getByRole('button', { name: 'Carry them over' }).click();
      await page.getByText('4 changes kept').waitFor();
      await first.settled();
      await page.getByText('since 4 corrections').waitFor({ state: 'detached' });
    });

    it('a new version waits while the page is open, which keeps the parts that it has not loaded yet', async () => {
      const application = join(testFolder(), 'application');
      cpSync(join(ROOT, 'dist/site'), application, { recursive: true });
      const asked = { survey: folder, basemap: null, basemapOrigin: null, orAnyPort: false };
      const old = await startServer({ ...asked, application, port: 0 });
      const page = await browser.context.newPage();
      const open = new AppPage(page);
      await open.open(old.address);
      await open.keptForOffline();
      await old.close();
      newBuild(application);
      const port = Number(new URL(old.address).port);
      const late = await startServer({ ...asked, application, port });
      await page.evaluate(async () => void (await navigator.serviceWorker.ready).update());
      await page.getByText('A new version of this page is ready').waitFor();
      await picture(page, 'new-version.png');
      await open.go('detection'); // a part that the new server does not have under this name
      await open.mapDrawn();
      await page.getByRole('button', { name: 'Open the new version' }).click();
      await page.getByText('A new version of this page is ready').waitFor({ state: 'detached' });
      await open.settled();
      await open.go('detection');
      await page.close();
      await late.close();
    });
  },
);

/** Every script gets another name, as after a change: what an open page asks for is no longer on the server. */
function newBuild(application: string): void {
  const assets = join(application, 'assets');
  const names = readdirSync(assets).filter((name) => /\.(js|css)$/.test(name));
  const renewed = (name: string) => name.replace(/-(?=.{8}\.\w+$)/, '-new-');
  const texts = [
    ...names.map((name) => join(assets, name)),
    join(application, 'index.html'),
    join(application, 'sw.js'),
  ];
  for (const file of texts) {
    let text = readFileSync(file, 'utf8').replace(/'shell-\w+'/, "'shell-new'");
    for (const name of names) text = text.replaceAll(name, renewed(name));
    writeFileSync(file, text);
  }
  for (const name of names) renameSync(join(assets, name), join(assets, renewed(name)));
}
