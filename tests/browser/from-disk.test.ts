/**
 * What opens from a disk, without a network: the public map, by keyboard and in three languages; posters that hold their text; and
 * the program in one file, as a colleague gets it together with a survey's zip.
 */

import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import script from 'virtual:public-viewer';
import { unzipSync, zipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LngLat } from '../../shared/survey.ts';
import { oneFile } from '../../src/cli/app-build.mjs';
import { estimateSurvey } from '../../src/pipeline.ts';
import { answer } from '../../src/present/answer.ts';
import { publicMap } from '../../src/present/public-map.ts';
import { classColour, densityClass } from '../../src/present/ramp.ts';
import { publicFiles } from '../../src/publish/public-files.ts';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { publicLake } from '../helpers/public-lake.ts';
import { axeFindings } from './drivers/accessibility.ts';
import { AppPage } from './drivers/app-page.ts';
import {
  NO_BROWSER,
  openBrowser,
  PATIENCE_MS,
  SMALL,
  type TestBrowser,
} from './drivers/chromium.ts';
import { nearColour } from './drivers/near-colour.ts';
import { picture } from './drivers/picture.ts';

const ROOT = join(import.meta.dirname, '../..');

describe.skipIf(NO_BROWSER !== null)(
  `opened from a disk${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    const room = testFolder();
    let browser: TestBrowser;

    beforeAll(async () => {
      const map = publicMap(publicLake(), null);
      if (map === null) throw new Error('got no map, expected one');
      const wishes = { title: null, contact: 'Lake office', nextUpdate: '2027-09-30' };
      for (const file of publicFiles(wishes, null, script))
        writeFileSync(join(room, file.name), file.text(map));
      browser = await openBrowser(SMALL);
      await browser.context.setOffline(true);
      await browser.page.goto(`file://${join(room, 'map.html')}`);
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
    });

    const words = async (part: string) =>
      (await browser.page.locator(part).innerText()).replace(/\s+/g, ' ');

    describe('the public map', () => {
      it('says the number, who to ask, and nothing that axe objects to', async () => {
        expect(await words('main')).toContain(
          'About 180,000 mussels; it could be 120,000 to 280,000',
        );
        expect(await words('main')).toContain('Lake office');
        expect(await axeFindings(browser.page)).toEqual([]);
      });

      it('is moved and asked by keyboard', async () => {
        const { page } = browser;
        const box = () => page.locator('#lake').getAttribute('viewBox');
        const whole = await box();
        await page.locator('#map').focus();
        await page.keyboard.press('n');
        expect(await words('#card')).toContain('counted 7 mussels');
        expect(await box()).not.toBe(whole);
        await page.keyboard.press('Escape');
        expect(await page.locator('#card').isVisible()).toBe(false);
        await page.keyboard.press('0');
        expect(await box()).toBe(whole);
        for (const key of ['+', 'ArrowLeft', 'Enter']) await page.keyboard.press(key);
        expect(await words('#card')).not.toBe('');
      });

      it('changes its language, with numbers as they are written where the lake lies', async () => {
        const { page } = browser;
        await page.getByRole('button', { name: 'Español' }).click();
        expect(await words('main')).toContain('Unos 180,000 mejillones');
        await page.getByRole('button', { name: 'Français' }).click();
        expect(await words('main')).toContain('Environ 180 000 moules');
        expect(await page.locator('html').getAttribute('lang')).toBe('fr-CA');
      });

      it.each(['en', 'es', 'fr'])('posters hold all of their text: %s', async (language) => {
        const { page } = browser;
        await page.goto(`file://${join(room, `poster-11x17-landscape-${language}.html`)}`);
        const over = await page
          .locator('main')
          .evaluate((poster) => poster.scrollHeight - poster.clientHeight);
        expect(over).toBeLessThanOrEqual(1); // rounding
      });
    });

    describe('the program in one file', () => {
      const survey = new Map(
        Object.entries(beltSurvey()).map(([name, text]) => [name, new TextEncoder().encode(text)]),
      );
      let app: AppPage;
      const open = async (page: Page, path: string) => {
        const opened = new AppPage(page);
        await page.goto(pathToFileURL(path).href);
        return opened;
      };
      const saved = async (what: string) => {
        const { page } = browser;
        await page.getByRole('button', { name: 'More' }).click();
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          page.getByRole('button', { name: what }).click(),
        ]);
        return unzipSync(new Uint8Array(readFileSync(await download.path())));
      };

      beforeAll(async () => {
        const built = await oneFile(ROOT, () => {});
        copyFileSync(built, join(room, 'shoalwise.html'));
        mkdirSync(join(room, 'stick #2'));
        copyFileSync(built, join(room, 'stick #2', 'shoalwise copy.html'));
        app = await open(browser.page, join(room, 'shoalwise.html'));
      }, PATIENCE_MS);

      it('opens a zip that it was handed, and gives the numbers that the command line gives', async () => {
        const { page } = browser;
        await page.getByText('every copy of the file on this computer finds it').waitFor();
        await picture(page, 'one-file.png');
        const zip = zipSync(
          Object.fromEntries([...survey].map(([name, bytes]) => [`minnow-pond/${name}`, bytes])),
        );
        await page.getByLabel('Survey zip or files').setInputFiles({
          name: 'pond.zip',
          mimeType: 'application/zip',
          buffer: Buffer.from(zip),
        });
        await app.settled();
        const there = await estimateSurvey({ name: 'minnow-pond', files: survey });
        if (!there.ok) throw new Error('got errors, expected a result');
        await app.go('lake');
        expect(await app.column()).toContain(answer(there.result).text);
        // both are the same program; engines differ in the last bits of exp, log and sin
        const files = await saved('Save the results');
        const here = JSON.parse(new TextDecoder().decode(files['estimate.json']));
        const mussels = there.result.estimate.abundance!.mussels!;
        for (const part of ['estimate', 'se', 'lower', 'upper'] as const)
          expect(here.abundance.mussels[part] / mussels[part]!).toBeCloseTo(1, 9);
        expect(Object.keys(files)).toContain('report.html');
      });

      it('saves open files and the survey, all its files byte for byte', async () => {
        const open = await saved('Save open files');
        expect(Buffer.from(open['survey.gpkg'].subarray(0, 15)).toString()).toBe('SQLite format 3');
        const files = await saved('Save the survey');
        for (const [name, bytes] of survey)
          expect(Buffer.from(files[name]).equals(bytes), name).toBe(true);
      });

      it('a copy of it elsewhere finds what is kept, opens none of it by itself, and does not edit what is open here', async () => {
        const copy = await open(
          await browser.context.newPage(),
          join(room, 'stick #2', 'shoalwise copy.html'),
        );
        await copy.page.getByRole('button', { name: 'minnow-pond', exact: true }).waitFor();
        // the lock of the window that edits it holds for the copy as well: there it is followed, as in kept-safe.test.ts
        const held = await copy.page.evaluate(
          async () => (await navigator.locks.query()).held?.map((lock) => lock.name) ?? [],
        );
        expect(held).toEqual([expect.stringMatching(/^shoalwise:minnow-pond:/)]);
        await copy.page.close();
        await browser.page.reload();
        await app.settled();
        expect(await app.column()).toContain('Minnow Pond');
      });

      it('has the demo lake inside, whose truth lies in the interval, and draws its map', async () => {
        const { page } = browser;
        await page.getByRole('button', { name: 'More' }).click();
        await page.getByRole('button', { name: 'Open another survey' }).click();
        await page.getByRole('button', { name: /an invented lake/ }).click();
        await app.settled();
        await app.go('lake');
        const figures = /About ([\d,]+) mussels \(.*interval ([\d,]+) to ([\d,]+)\)/.exec(
          await app.sentence(),
        )!;
        const [estimate, lower, upper] = figures.slice(1).map((f) => Number(f.replaceAll(',', '')));
        // planted when the lake was invented
        const truth = JSON.parse(readFileSync(join(ROOT, 'demo-lake/truth.json'), 'utf8')).mussels;
        expect([lower, truth, upper]).toEqual([lower, truth, upper].sort((a, b) => a - b));
        expect(Math.abs(estimate / truth - 1)).toBeLessThan(0.25);
        await app.mapDrawn();
        let at: LngLat = [0, 0];
        let density: string | undefined;
        // a transect's card may lie over some of them
        for (const lat of [44.4176, 44.4171, 44.4166, 44.4186]) {
          at = [-84.9573, lat];
          density = /([\d.]+) per m²/.exec(await app.pointAt(at))?.[1];
          if (density !== undefined) break;
        }
        await page.mouse.move(700, 5);
        const wanted = classColour(densityClass(Number(density)), false);
        const drawn = await app.colourAtPixel(await app.pixelOf(at));
        expect(nearColour(wanted, drawn), `${density} per m² in ${drawn}`).toBe(true);
      });
    });

    it('asked nothing of any network, and broke no policy', () => {
      expect([...browser.origins]).toEqual([]);
      expect(browser.complaints).toEqual([]);
    });
  },
);
