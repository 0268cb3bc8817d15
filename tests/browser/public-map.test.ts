/** The public map as a reader opens it from disk: no network, by keyboard, in three languages; and posters that hold their text. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import script from 'virtual:public-viewer';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { publicMap } from '../../src/present/public-map.ts';
import { publicFiles } from '../../src/publish/public-files.ts';
import { testFolder } from '../helpers/folder.ts';
import { publicLake } from '../helpers/public-lake.ts';
import { axeFindings } from './drivers/accessibility.ts';
import {
  NO_BROWSER,
  openBrowser,
  PATIENCE_MS,
  SMALL,
  type TestBrowser,
} from './drivers/chromium.ts';

describe.skipIf(NO_BROWSER !== null)(
  `the public map in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
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

    it('asked nothing of any network, and broke no policy', () => {
      expect([...browser.origins]).toEqual([]);
      expect(browser.complaints).toEqual([]);
    });
  },
);
