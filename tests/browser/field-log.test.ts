/**
 * A survey entered on a phone in the boat: by taps, without server or network, every one of them kept. `KILLS=50 npx vitest run
 * tests/browser/field-log.test.ts` kills the browser fifty times instead of a few; KILL_SEED chooses the moments.
 */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TABLES } from '../../shared/tables.ts';
import { testFolder } from '../helpers/folder.ts';
import { axeFindings } from './drivers/accessibility.ts';
import { AppPage } from './drivers/app-page.ts';
import { NO_BROWSER, openBrowser, PATIENCE_MS, type TestBrowser } from './drivers/chromium.ts';
import { killWhileTyping } from './drivers/kill-while-typing.ts';
import { LogPage } from './drivers/log-page.ts';
import { picture } from './drivers/picture.ts';
import { serveFolder, type TestServer } from './drivers/server.ts';

/** Of CSS pixels, as a small phone has them; drawn coarsely, for looks are looked at elsewhere. */
const PHONE = { width: 360, height: 740 };
const KILLS = Number(process.env.KILLS ?? 3);
const SEED = Number(process.env.KILL_SEED ?? 20261129);
const MOST_TAPS = 4;
/** What is allowed to be lost, by the issue. */
const A_SECOND_MS = 1_000;

function emptyFolder(name: string): string {
  const folder = join(testFolder(), name);
  mkdirSync(folder);
  for (const { file, columns } of TABLES)
    writeFileSync(join(folder, file), `${columns.map((c) => c.name).join(',')}\n`);
  return folder;
}

describe.skipIf(NO_BROWSER !== null)(
  `the Field log in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    let server: TestServer;
    let browser: TestBrowser;
    let log: LogPage;

    beforeAll(async () => {
      server = await serveFolder(emptyFolder('minnow-pond'));
      browser = await openBrowser(PHONE);
      log = new LogPage(browser.page);
      await log.page.goto(`${server.address}#log`);
      await log.opened();
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
    });

    it('opens without server and network once it was loaded', async () => {
      await new AppPage(log.page).keptForOffline();
      // Chromium reads the manifest and its icons, and says what would keep it from installing the page
      const devtools = await browser.context.newCDPSession(log.page);
      const { errors, data } = await devtools.send('Page.getAppManifest');
      expect(errors).toEqual([]);
      expect(JSON.parse(data ?? '{}')).toMatchObject({ name: 'Shoalwise', display: 'standalone' });
      const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
      expect(installabilityErrors).toEqual([]);
      await server.stop();
      await browser.context.setOffline(true);
      await log.page.reload();
      await log.opened();
    });

    it('takes the head of a transect: what is known is proposed, the device gives the start', async () => {
      const { page } = log;
      await log.press('New transect: T1');
      await log.type('Primary observer', 'Ann');
      await log.type('Secondary observer', 'Ben');
      await page.getByText('blank, but required (degrees expected)').first().waitFor();
      await log.press('Start: take the position here');
      await page.getByText('This page may not ask for the position').waitFor();
      await browser.context.grantPermissions(['geolocation']);
      await browser.context.setGeolocation({ latitude: 45.0008, longitude: -92.9999, accuracy: 4 });
      await log.press('Start: take the position here');
      await page.getByText('±4 m, 1 position').waitFor();
      await log.press('Take it now');
      expect(await page.getByLabel('Start, latitude').inputValue()).toBe('45.000800');
      expect(await page.getByLabel('Start, longitude').inputValue()).toBe('-92.999900');
      expect(await page.getByLabel('Notes').inputValue()).toBe(
        'Start by device: ±4 m, 1 position.',
      );
      await log.type('Bearing, start to end (°)', '90');
      await log.choose('Bearing counted from', 'true');
      await picture(page, 'log-transect.png');
      expect(await axeFindings(page)).toEqual([]);
    });

    it('takes breaks, told where a rule is broken', async () => {
      const { page } = log;
      await log.tab('Habitat');
      await page.getByText('at least the one at 0 m expected').waitFor();
      await log.addBreak('0', '1', ['sand'], '0');
      await log.addBreak('12.5', '2.2', ['gravel', 'sand'], '1');
      await log.addBreak('31', '3', ['rock'], '2');
      await page.getByText("past the rope's end").first().waitFor();
      await picture(page, 'log-habitat.png');
      await log.press(/^31 m/);
      await log.press('Delete');
      await log.press('Go to the end');
      await log.type('Depth (m)', '4');
      await log.press('Add at 30 m');
      await page.getByText('30 m: end').waitFor();
      expect(await axeFindings(page)).toEqual([]);
    });

    it(`takes a detection with at most ${MOST_TAPS} taps, each on a target for a thumb`, async () => {
      const { page } = log;
      await log.tab('Detections');
      const taps = [
        await log.detect(3, true, 'Ann', 1),
        await log.detect(14, false, 'Ann', 2),
        await log.detect(14, true, 'Ben', 1),
        await log.detect(21, true, 'Ann', 4),
      ];
      expect(taps).toEqual([3, 2, 3, 3]);
      await log.press('Undo');
      await page.getByText('21.5 m').waitFor({ state: 'detached' });
      expect(await log.detect(22, false, 'Ann', 3)).toBeLessThanOrEqual(MOST_TAPS);
      await log.press('22 m: 3 by Ann');
      await log.press('Mussels: 1 more');
      await log.press('Done');
      await page.getByText('22 m: 4 by Ann').waitFor();
      expect(await log.detectMore(25, 'Ben', ['5 more', '1 more', '1 more', '1 less'])).toBe(7);
      await page.getByText('25 m: 11 by Ben').waitFor();
      // of five there are as many taps as of one, and one more
      expect(await log.detectMore(26, 'Ann', [])).toBe(3);
      await page.getByText('26 m: 5 by Ann').waitFor();
      await picture(page, 'log-detections.png');
      expect(await axeFindings(page)).toEqual([]);
    });

    it('proposes the next transect with the roles exchanged; on the distance design four taps do as well', async () => {
      const { page } = log;
      await log.tab('Next');
      await log.press('New transect: T2');
      expect(await page.getByLabel('Primary observer', { exact: true }).inputValue()).toBe('Ben');
      expect(await page.getByLabel('Secondary observer', { exact: true }).inputValue()).toBe('Ann');
      await log.choose('Design', 'distance');
      await log.type('Start, latitude', '45.0016');
      await log.type('Start, longitude', '-92.9999');
      await log.type('Bearing, start to end (°)', '90');
      await log.tab('Habitat');
      await log.addBreak('0', '1', ['sand'], '0');
      await log.addBreak('15', '2.4', ['gravel'], '1');
      await log.tab('Detections');
      const taps: number[] = [];
      const offsets = ['0', '0.1', '0.2', '0', '0.4', '0.1', '0.3', '0.7'];
      for (const [i, offset] of offsets.entries())
        taps.push(await log.detect(3 * i, true, i % 3 === 2 ? 'Ann' : 'Ben', 1 + (i % 2), offset));
      expect(Math.max(...taps)).toBe(MOST_TAPS);
      await picture(page, 'log-distance.png');
      await page.emulateMedia({ colorScheme: 'dark' });
      await page.waitForSelector('html[data-theme="dark"]', { state: 'attached' });
      await picture(page, 'log-distance-dark.png');
      expect(await axeFindings(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
    });

    it('asks whether nothing was found where a transect was left without a word', async () => {
      const { page } = log;
      await log.tab('Next');
      await log.press('New transect: T3');
      await log.type('Start, latitude', '45.0024');
      await log.type('Start, longitude', '-92.9999');
      await log.type('Bearing, start to end (°)', '90');
      await log.tab('Habitat');
      await log.addBreak('0', '1', ['rock'], '0');
      await log.tab('Next');
      await page.getByText('T3: nothing was entered').waitFor();
      await picture(page, 'log-unsaid.png');
      await log.press('Yes, none found');
      await page.getByText('T3: nothing was entered').waitFor({ state: 'detached' });
    });

    it('never had a target too small, and kept every change', async () => {
      expect(log.small).toEqual([]);
      await log.kept();
      expect(browser.complaints.filter((text) => !text.includes('ERR_'))).toEqual([]);
    });

    it('is estimated and exported once it is left, still without a network', async () => {
      const { page } = log;
      const app = new AppPage(page);
      await log.press('Leave the Field log');
      await app.settled();
      expect(await app.sentence()).toBe(
        '3 transects, 14 clusters: nothing stands in the way of the estimate.',
      );
      const save = async (words: string) => {
        await page.getByRole('button', { name: 'More' }).click();
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          page.getByRole('button', { name: words }).click(),
        ]);
        return unzipSync(new Uint8Array(readFileSync(await download.path())));
      };
      const survey = await save('Save the survey (zip)');
      const rows = (name: string) => new TextDecoder().decode(survey[name]).trim().split('\n');
      expect(rows('habitat.csv').slice(1)).toEqual([
        'T1,0,sand,0,1',
        'T1,12.5,gravel+sand,1,2.2',
        ',,,,', // the one that was deleted
        'T1,30,,,4',
        'T2,0,sand,0,1',
        'T2,15,gravel,1,2.4',
        'T3,0,rock,0,1',
      ]);
      expect(rows('detections.csv').slice(1, 7)).toEqual([
        'T1,primary,3.5,,1,,',
        'T1,primary,14,,2,,',
        'T1,secondary,14.5,,1,,',
        'T1,primary,22,,4,,',
        'T1,secondary,25,,11,,',
        'T1,primary,26,,5,,',
      ]);
      expect(rows('transects.csv')[3]).toMatch(
        /^T3,\d{4}-\d\d-\d\d,distance,Ann,Ben,45.0024,-92.9999,.*none found\."$/,
      );
      const results = await save('Save the results (zip)');
      const estimate = JSON.parse(new TextDecoder().decode(results['estimate.json']));
      expect(estimate.data).toMatchObject({ transects: 3, detections: 14 });
      expect(estimate.model.converged).toBe(true);
    });
  },
);

describe.skipIf(NO_BROWSER !== null)('a browser that is killed while somebody types', () => {
  it(`loses nothing older than a second, and nothing is corrupt (${KILLS} kills)`, {
    timeout: PATIENCE_MS + KILLS * 60_000,
  }, async () => {
    const server = await serveFolder(emptyFolder('killed-pond'));
    const browser = await openBrowser(PHONE);
    const log = new LogPage(browser.page);
    try {
      await log.page.goto(`${server.address}#log`);
      await log.opened();
      await log.press('New transect: T1');
      await log.type('Primary observer', 'Ann');
      await log.tab('Detections');
      await log.kept();
      const kills = await killWhileTyping(server.address, browser, KILLS, seeded(SEED));
      if (process.env.KILLS !== undefined) console.log(JSON.stringify(kills));
      expect(kills.filter((k) => k.corrupt)).toEqual([]);
      expect(kills.filter((k) => k.oldestLostMs > A_SECOND_MS)).toEqual([]);
      expect(Math.max(...kills.map((k) => k.done))).toBeGreaterThan(0);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
});

/** Park and Miller's minimal standard generator. */
function seeded(seed: number): () => number {
  let state = seed % 2147483647;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}
