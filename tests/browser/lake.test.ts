/** A biologist opens the demo lake: reads its number, points at it, looks at every station, by day and by night. */

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { fromArrayBuffer } from 'geotiff';
import type { Page } from 'playwright-core';
import proj4 from 'proj4';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LngLat } from '../../shared/survey.ts';
import { STATIONS, type Station } from '../../src/app/contract.ts';
import { classColour, densityClass } from '../../src/present/ramp.ts';
import { testFolder } from '../helpers/folder.ts';
import { floatBands } from '../helpers/rasters.ts';
import { axeFindings } from './drivers/accessibility.ts';
import { AppPage } from './drivers/app-page.ts';
import { NO_BROWSER, openBrowser, PATIENCE_MS, type TestBrowser } from './drivers/chromium.ts';
import { pushed, STILL, tooWide } from './drivers/frame.ts';
import { type Loaded, watchLoading } from './drivers/loading.ts';
import { nearColour } from './drivers/near-colour.ts';
import { picture } from './drivers/picture.ts';
import { serveFolder, type TestServer } from './drivers/server.ts';

const ROOT = join(import.meta.dirname, '../..');
const DEMO = join(ROOT, 'demo-lake');

describe.skipIf(NO_BROWSER !== null)(
  `the demo lake in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    const out = join(testFolder(), 'out');
    let printed: string;
    let server: TestServer;
    let browser: TestBrowser;
    let app: AppPage;
    let loaded: () => Promise<Loaded>;

    beforeAll(async () => {
      const launch = join(ROOT, 'src/cli/launch.mjs');
      const done = spawnSync(process.execPath, [launch, 'estimate', DEMO, '--out', out], {
        encoding: 'utf8',
      });
      printed = done.stdout.replace(/\s+/g, ' ');
      server = await serveFolder(DEMO);
      browser = await openBrowser();
      loaded = watchLoading(browser);
      app = new AppPage(browser.page);
      await app.open(server.address);
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
    });

    it('says the answer word for word as the command line does', async () => {
      await app.go('lake');
      const answer = /Answer (About .*? were counted\.)/.exec(printed)![1];
      expect(answer).toMatch(/^About [\d,]+ mussels \(95 % confidence interval [\d,]+ to [\d,]+\)/);
      expect(await app.column()).toContain(answer);
    });

    it('loads at most 720 kB up to the number, and no plotting library', async () => {
      await app.mapDrawn();
      const { files, kB } = await loaded();
      // the map, the page and the core are there: more than a page without its map could be
      expect(kB).toBeGreaterThan(400);
      // measured: 699; what is loaded after the number may have begun already
      expect(kB).toBeLessThanOrEqual(720);
      expect(files.filter((url) => /\/plot-/.test(url))).toEqual([]);
    });

    it('saves the files that the command line writes, with the same numbers', async () => {
      const { page } = browser;
      await page.getByRole('button', { name: 'More' }).click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save the results' }).click(),
      ]);
      const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
      expect(Object.keys(files).sort()).toEqual(readdirSync(out).sort());
      // what people read is the same letter for letter
      for (const name of ['report.html', 'report-short.html', 'warnings.csv', 'detections.geojson'])
        expect(Buffer.from(files[name]).equals(readFileSync(join(out, name))), name).toBe(true);
      // ECMAScript leaves the last bits of exp, log and sin to the engine: Node's and the browser's are of different age
      const here = numbersIn(JSON.parse(new TextDecoder().decode(files['estimate.json'])));
      const there = numbersIn(JSON.parse(readFileSync(join(out, 'estimate.json'), 'utf8')));
      expect([...here.keys()]).toEqual([...there.keys()]);
      expect(here.size).toBeGreaterThan(500);
      for (const [path, value] of here) {
        const off = Math.abs(value - there.get(path)!) / Math.max(1, Math.abs(value));
        expect(off, path).toBeLessThan(1e-9);
      }
    });

    it('saves open files, all of them, with the raster and the layers in them', async () => {
      const { page } = browser;
      await page.getByRole('button', { name: 'More' }).click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save open files' }).click(),
      ]);
      const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
      const names = Object.keys(files);
      for (const name of ['datapackage.json', 'transects.csv', 'grid.tif', 'citation.cff'])
        expect(names).toContain(name);
      const head = (name: string) => Buffer.from(files[name].subarray(0, 15)).toString('latin1');
      expect(head('survey.gpkg')).toBe('SQLite format 3');
      const archive = unzipSync(files['darwin-core.zip']);
      expect(Object.keys(archive)).toContain('meta.xml');
    });

    it('holds at a spot what grid.tif holds there, and paints its class', async () => {
      await app.go('lake');
      await app.mapDrawn();
      const grid = await openGrid(join(out, 'grid.tif'));
      let compared = 0;
      for (const spot of grid.plainSpots(7)) {
        const card = await app.pointAt(spot.at);
        const shown = /([\d.,]+) per m²/.exec(card);
        if (shown === null) continue; // a transect's card lies over it
        const value = Number(shown[1].replaceAll(',', ''));
        // the card rounds to what the interval supports: two digits of the standard error
        expect(Math.abs(value - spot.density)).toBeLessThanOrEqual(
          roundingOf(spot.density * spot.cv),
        );
        if (!spot.unsure) {
          await browser.page.mouse.move(700, 5);
          const wanted = classColour(densityClass(spot.density), false);
          expect([wanted, ...(await coloursAround(spot.at))]).toSatisfy(
            ([colour, ...got]: string[]) => got.some((each) => nearColour(colour, each)),
          );
        }
        compared++;
      }
      expect(compared).toBeGreaterThanOrEqual(4);
    });

    /** At a spot and a little north and south of it, where no name of a treatment area lies over the density. */
    async function coloursAround(at: LngLat): Promise<string[]> {
      const { x, y } = await app.pixelOf(at);
      const got: string[] = [];
      for (const up of [0, 8, -8]) got.push(await app.colourAtPixel({ x, y: y + up }));
      return got;
    }

    it('shows the chance of a density, for any threshold, without another estimate', async () => {
      const { page } = browser;
      await app.go('lake');
      await page.getByRole('button', { name: 'Chance', exact: true }).click();
      const legend = page.locator('.map-legend');
      // the analysis' own threshold: word for word the area of the report and of the terminal
      const [, printedArea] = /exceeds 1 per m² on about ([\d.,]+ ha)/.exec(printed)!;
      await expect.poll(() => legend.innerText()).toContain(`On ${printedArea}`);
      expect(await legend.innerText()).toContain('Chance of more than 1 per m²');
      const threshold = page.getByLabel('More than');
      await threshold.press('ArrowUp');
      await expect.poll(() => legend.innerText()).toContain('Chance of more than 2 per m²');
      expect(await page.locator('.shell').getAttribute('data-run')).toBe('idle');
      expect(await legend.innerText()).toContain('The report has 1 per m².');
      await threshold.press('ArrowDown');
      await page.getByRole('button', { name: 'Density', exact: true }).last().click();
      await page.getByLabel('Stretch to this lake').check();
      await page.emulateMedia({ media: 'print' });
      expect(await legend.innerText()).toContain('Classes spread over this lake’s range');
      await page.emulateMedia({ media: 'screen' });
      await page.getByLabel('Stretch to this lake').uncheck();
    });

    it('names a treatment area that is chosen in its table, until its card is closed', async () => {
      const { page } = browser;
      const row = page.locator('.station button.row-button', { hasText: 'Stony Bay' });
      await row.click();
      const card = page.locator('.map-card.pinned');
      await expect.poll(() => card.innerText()).toMatch(/^Stony Bay\s+[\d,]+ mussels/);
      await card.getByRole('button', { name: 'Close' }).click();
      expect(await card.count()).toBe(0);
      await page.locator('.map-tools button').last().click();
    });

    it('saves a figure as SVG and PNG, with its caption and the credit line', async () => {
      const { page } = browser;
      await app.go('density');
      const figure = page.locator('.figure', { has: page.getByText('Save the picture') }).first();
      await figure.getByText('Save the picture').click();
      const saved = async (kind: string): Promise<Buffer> => {
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          figure.getByRole('button', { name: kind }).click(),
        ]);
        return readFileSync(await download.path());
      };
      const svg = (await saved('SVG')).toString('utf8').replace(/<[^>]+>/g, ' ');
      expect(svg).toContain('Density by depth');
      expect(svg.replace(/\s+/g, ' ')).toMatch(
        /Hollowreed Lake, surveyed 2026-06-29 to .*Drawn by Shoalwise/,
      );
      const png = await saved('PNG');
      expect([...png.subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
      expect(png.readUInt32BE(16)).toBeGreaterThan(400); // its width
      await figure.getByText('Save the picture').click();
    });

    it('saves the map for the public, and pictures as PNG of their size', async () => {
      const { page } = browser;
      await app.go('lake');
      await page.getByText('A map for the public').click();
      await page.getByLabel('Who to ask').fill('Lake office');
      const saved = async (button: string) => {
        const [download] = await Promise.all([
          page.waitForEvent('download'),
          page.getByRole('button', { name: button }).click(),
        ]);
        return new Uint8Array(readFileSync(await download.path()));
      };
      const map = await saved('Save the public map');
      expect(map.length).toBeLessThan(500_000);
      // the estimate's 797,000 (692,000 to 918,000), to the first digit of its standard error
      const text = new TextDecoder().decode(map);
      expect(text).toContain('About 800,000 mussels; it could be 690,000 to 920,000');
      expect(text).toContain('Lake office');
      const prints = unzipSync(await saved('Save posters and pictures'));
      const png = Buffer.from(prints['picture-square-en.png']);
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([1080, 1080]);
      await page.getByText('A map for the public').click();
    });

    it('asks nothing of any other origin and breaks no policy', () => {
      expect([...browser.origins]).toEqual([server.address.replace(/\/$/, '')]);
      expect(browser.complaints).toEqual([]);
    });

    it('lights the transect that is shown in section', async () => {
      await app.go('transects');
      await app.mapDrawn();
      const before = await app.accentOnMap();
      await browser.page.keyboard.press('Escape');
      await app.go('lake');
      await app.mapDrawn();
      // coarsely drawn it is 26 pixels long at the least
      expect(before).toBeGreaterThan((await app.accentOnMap()) + 8);
    });

    it('keeps a variant without another estimate, and runs a bootstrap that can be cancelled', async () => {
      const { page } = browser;
      await app.go('density');
      await page.getByLabel('Keep these choices as').fill('As usual');
      await page.keyboard.press('Enter');
      const first = page.locator('.variant').first();
      await expect.poll(() => first.innerText()).toContain('As usual · the analysis');
      expect(await page.locator('.shell').getAttribute('data-run')).toBe('idle');
      await first.getByRole('button', { name: 'Rename' }).click();
      await page.keyboard.type('All defaults');
      await page.keyboard.press('Enter');
      await expect.poll(() => first.innerText()).toContain('As usualAll defaults · the analysis');
      await page.keyboard.press('Control+z');
      await expect.poll(() => first.innerText()).toContain('As usual · the analysis');
      await page.getByRole('button', { name: 'Run Bootstrap replicates' }).click();
      const running = page.locator('.study-running');
      await expect.poll(() => running.innerText(), { timeout: 90_000 }).toMatch(/\d+ %/);
      expect(await page.locator('.shell').getAttribute('data-run')).toBe('idle');
      await running.getByRole('button', { name: 'Cancel' }).click();
      expect(await running.count()).toBe(0);
      expect(await page.locator('.study-outcome').count()).toBe(0);
    });

    it('plans the next dives: a sentence, places on the map, a few more, files for the boat', async () => {
      const { page } = browser;
      await app.go('next');
      const said = page.locator('.station h1');
      await expect
        .poll(() => said.innerText(), { timeout: 90_000 })
        .toMatch(/^20 transects are expected to give a CV of/);
      await page.getByRole('button', { name: 'a CV', exact: true }).click();
      await page.getByLabel('The CV to reach').fill('9');
      await page.getByRole('button', { name: 'Plan these dives' }).click();
      // more precise takes more dives: 20 give some 12 %, so 9 % takes some 36 by the law of the root
      await expect
        .poll(async () => parseInt(await said.innerText(), 10), { timeout: 90_000 })
        .toBeGreaterThan(22);
      await expect
        .poll(() => page.locator('.plan-said').innerText(), { timeout: 90_000 })
        .toMatch(/^The CV is 7\.\d\s% now: 15\s% is reached\.$/);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Survey folder, as a zip' }).click(),
      ]);
      const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
      expect(Object.keys(files)).toEqual(
        expect.arrayContaining(['transects.csv', 'plan.gpx', 'sheets.html', 'depth.geojson']),
      );
      const rows = new TextDecoder().decode(files['transects.csv']).trim().split(/\r?\n/);
      expect(rows).toHaveLength(1 + parseInt(await said.innerText(), 10));
      expect(rows[1]).toMatch(/^P01,,belt,/);
      // the check goes on beside the page, which still answers, and is ended like a study
      await page.getByRole('button', { name: /^Check the plan on/ }).click();
      const running = page.locator('.plan-check .study-running');
      await expect.poll(() => running.innerText(), { timeout: 90_000 }).toMatch(/\d+ %/);
      await running.getByRole('button', { name: 'Cancel' }).click();
      expect(await running.count()).toBe(0);
      expect(await page.getByRole('button', { name: /^Check the plan on/ }).isEnabled()).toBe(true);
    });

    /** Title and day, the map with its legend, the column, the credit line: no controls, nothing beyond the paper. */
    const printsWell = async (station: Station): Promise<void> => {
      const { page } = browser;
      await page.emulateMedia({ media: 'print' });
      // read before anything can be drawn anew: paper is laid out without the page's scripts
      const paper = await page.evaluate(() => {
        const all = (css: string) => [...document.querySelectorAll<HTMLElement>(css)];
        const parts = ['.print-head', '.map-canvas', '.map-legend', '.column', '.print-foot'];
        const tops = parts.map((css) => all(css)[0].getBoundingClientRect().top);
        const canvas = all('.map-canvas canvas')[0].getBoundingClientRect();
        const marks = all('.map-print-marks')[0].getBoundingClientRect();
        const controls =
          '.rope, .map-tools, .map-surfaces, .variant-keep, .study-start, input, select, summary:not(.map-legend > *, .notices *)';
        const pressed = all(controls).filter((e) => e.getClientRects().length > 0);
        const column = all('.column-inner')[0];
        column.style.width = '400px';
        const end = column.getBoundingClientRect().right;
        const wide = [...column.querySelectorAll('svg')].filter(
          (svg) => svg.getBoundingClientRect().right > end + 1,
        );
        column.style.width = '';
        return {
          inOrder: tops.every((top, i) => i === 0 || top > tops[i - 1]),
          // scale and north are drawn in the map's pixels, over the same box
          shift: [marks.left - canvas.left, marks.width - canvas.width].map(Math.round),
          marks: all('.map-print-marks text').map((e) => e.textContent),
          head: all('.print-head')[0].innerText,
          foot: all('.print-foot')[0].innerText,
          controls: pressed.map((e) => e.outerHTML.slice(0, 80)),
          beyond: wide.map((svg) => svg.getAttribute('class') ?? svg.parentElement?.className),
        };
      });
      await page.emulateMedia({ media: 'screen' });
      expect(paper, station).toMatchObject({
        inOrder: true,
        shift: [0, 0],
        marks: [expect.stringMatching(/^[125]0* m$/), 'N'],
        controls: [],
        beyond: [],
      });
      expect(paper.head).toMatch(/^Hollowreed Lake\s+[\w ]+\s+Printed \d{4}-\d\d-\d\d$/);
      expect(paper.foot).toMatch(/^Hollowreed Lake, surveyed .* Drawn by Shoalwise/);
    };

    /** The map cannot be painted any more once a browser prints: it is in light before, and dark again after. */
    const printsInLight = async (): Promise<void> => {
      const { page } = browser;
      await page.evaluate(() => {
        const { dataset } = document.documentElement;
        const map = document.querySelector<HTMLElement>('.map-canvas')!;
        window.print = () => {
          dataset.printed = `${dataset.theme}, map ${map.dataset.map}`;
        };
      });
      await page.keyboard.press('Control+p');
      const read = (name: string) => page.locator('html').getAttribute(name);
      await expect.poll(() => read('data-printed')).toBe('light, map idle');
      await expect.poll(() => read('data-theme')).toBe('dark');
    };

    /** The map is drawn anew for a theme: once for all stations. */
    const chooseTheme = async (theme: 'day' | 'night'): Promise<void> => {
      await browser.page.getByRole('button', { name: 'More' }).click();
      await browser.page.getByRole('button', { name: theme }).click();
      await browser.page.keyboard.press('Escape');
    };

    it('by day axe finds nothing at any station, and each prints as it should', async () => {
      await chooseTheme('day');
      for (const station of STATIONS) {
        await app.go(station);
        await app.mapDrawn();
        await picture(browser.page, `${station}-day.png`);
        expect(await axeFindings(browser.page), station).toEqual([]);
        await printsWell(station);
      }
    });

    it('by night it is walked through by keyboard alone, the colours of each station have contrast, and it prints in light', async () => {
      const { page } = browser;
      await chooseTheme('night');
      await page.locator('.rope-mark').first().focus();
      for (const station of STATIONS) {
        await page.keyboard.press('Enter');
        await page.waitForSelector(`.shell[data-station="${station}"]`);
        await page.waitForSelector('.station h1');
        await app.mapDrawn();
        await picture(page, `${station}-night.png`);
        // a theme changes colours alone
        const colours = { only: ['color-contrast', 'link-in-text-block'] };
        expect(await axeFindings(page, colours), station).toEqual([]);
        await page.locator('.rope-mark', { hasText: new RegExp(station, 'i') }).focus();
        await page.keyboard.press('Tab');
      }
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('More');
      await printsInLight();
    });

    it('fits a phone: nothing to scroll sideways, and axe finds nothing', async () => {
      await browser.page.setViewportSize({ width: 390, height: 844 });
      await app.mapDrawn();
      // nobody has moved the map: it shows the whole lake in its new place, and nothing lies on it
      const map = await pageBox(browser.page, '.map-canvas');
      const furniture = [];
      for (const css of ['.map-tools', '.map-scale', '.map-legend'])
        furniture.push(await pageBox(browser.page, css));
      const shore = JSON.parse(readFileSync(join(DEMO, 'outline.geojson'), 'utf8'));
      for (const at of shore.features[0].geometry.coordinates[0] as LngLat[]) {
        const place = await app.pixelOf(at);
        expect(map.holds(place)).toBe(true);
        expect(furniture.filter((part) => part.holds(place)).map(({ css }) => css)).toEqual([]);
      }
      for (const station of STATIONS) {
        await app.go(station);
        await app.mapDrawn();
        const wide = await browser.page.evaluate(() => {
          const column = document.querySelector('.column')!;
          return [
            document.documentElement.scrollWidth - innerWidth,
            column.scrollWidth - column.clientWidth,
          ];
        });
        expect(wide).toEqual([0, 0]);
        expect(await pushed(browser.page), station).toEqual(STILL);
        await picture(browser.page, `${station}-phone.png`);
        // contrast was looked at above
        expect(await axeFindings(browser.page, { without: ['color-contrast'] })).toEqual([]);
      }
      await browser.page.setViewportSize({ width: 1440, height: 900 });
    });

    it.each([[1024, 768]])(
      'stands still at %i × %i, and nothing is wider than its column, also zoomed to twice that',
      async (width, height) => {
        const { page } = browser;
        const zoomed = { width: width / 2, height: height / 2 }; // the same in the page's own pixels
        for (const size of [{ width, height }, zoomed]) {
          await page.setViewportSize(size);
          for (const station of STATIONS) {
            const where = `${station} at ${size.width}`;
            await app.go(station);
            expect(await tooWide(page), where).toEqual([]);
            if (size.width === width) expect(await pushed(page), where).toEqual(STILL);
          }
          const map = (await page.locator('.map-area').boundingBox())!;
          if (size.width >= 1000) expect(map.width).toBeGreaterThanOrEqual(size.width / 2);
          await app.openLegend();
          const box = (await page.locator('.map-legend').boundingBox())!;
          expect(box.y).toBeGreaterThanOrEqual(map.y);
          expect(box.y + box.height).toBeLessThanOrEqual(map.y + map.height);
        }
        await page.setViewportSize({ width: 1440, height: 900 });
      },
    );

    it('plans the next dives at the ramp too: the Field log tells what the station tells, and holds no entry up', async () => {
      const { page } = browser;
      await app.go('next');
      const station = page.locator('.plan-said');
      await expect.poll(() => station.innerText(), { timeout: 90_000 }).toMatch(/15\s%/);
      const said = await station.innerText();
      await app.go('survey');
      await page.getByRole('button', { name: 'Open the Field log' }).click();
      await page.setViewportSize({ width: 360, height: 740 });
      await page.getByRole('button', { name: 'How many more today?' }).click();
      expect(await page.getByRole('button', { name: /^New transect/ }).isEnabled()).toBe(true);
      const log = page.locator('.log-said');
      await expect.poll(() => log.innerText(), { timeout: 90_000 }).toBe(said);
      await page.getByText('Another goal, one to ten more').click();
      // none, and one to ten more: each further dive tells more
      const cvs = await page.locator('.log-more td:last-child').allInnerTexts();
      expect(cvs).toHaveLength(11);
      expect(cvs.map(parseFloat)).toEqual(cvs.map(parseFloat).sort((a, b) => b - a));
      await page.getByRole('button', { name: '10 %', exact: true }).click();
      expect(await log.innerText()).toMatch(/10\s% is reached\.$/);
      await picture(page, 'log-more-today.png');
      expect(await axeFindings(page)).toEqual([]);
    });
  },
);

/** Where a part of the page lies in the window. */
async function pageBox(page: Page, css: string) {
  const box = await page.locator(css).boundingBox();
  if (box === null) throw new Error(`got no ${css}, expected one`);
  return {
    css,
    holds: ({ x, y }: { x: number; y: number }): boolean =>
      x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height,
  };
}

/** Every number in a JSON value by its path. */
function numbersIn(value: unknown, path = ''): Map<string, number> {
  if (typeof value === 'number') return new Map([[path, value]]);
  if (typeof value !== 'object' || value === null) return new Map();
  return new Map(Object.entries(value).flatMap(([k, v]) => [...numbersIn(v, `${path}/${k}`)]));
}

/** grid.tif read by the geotiff library, and spots whose surroundings are of one colour. */
async function openGrid(path: string) {
  const file = readFileSync(path);
  const tiff = await fromArrayBuffer(
    file.buffer.slice(file.byteOffset, file.byteOffset + file.length),
  );
  const image = await tiff.getImage();
  const keys = image.getGeoKeys()!;
  const width = image.getWidth();
  const [density, cv] = await floatBands(image);
  const [x0, y0] = image.getOrigin();
  const [dx, dy] = image.getResolution();
  const plane = proj4(
    `+proj=laea +lat_0=${keys.ProjCenterLatGeoKey} +lon_0=${keys.ProjCenterLongGeoKey} +x_0=0 +y_0=0 +datum=WGS84`,
    'EPSG:4326',
  );
  const classAt = (cell: number) => (density![cell] >= 0 ? densityClass(density![cell]) : -1);
  return {
    /** Spread over the lake, each with its neighbours of the same class. */
    plainSpots(count: number) {
      const cells = [...density!.keys()].filter((cell) => {
        const own = classAt(cell);
        if (own < 0) return false;
        for (let r = -3; r <= 3; r++)
          for (let c = -3; c <= 3; c++) if (classAt(cell + r * width + c) !== own) return false;
        return true;
      });
      return Array.from({ length: count }, (_, k) => {
        const cell = cells[Math.floor(((k + 0.5) * cells.length) / count)];
        const x = x0! + ((cell % width) + 0.5) * dx!;
        const y = y0! + (Math.floor(cell / width) + 0.5) * dy!;
        const at = plane.forward([x, y]) as LngLat;
        const spread = Math.exp(2 * 1.96 * Math.sqrt(Math.log1p(cv![cell] ** 2)));
        return { at, density: density![cell], cv: cv![cell], unsure: spread > 4.5 };
      });
    },
  };
}

/** Half a unit of the second digit of the standard error. */
function roundingOf(se: number): number {
  return 10 ** (Math.floor(Math.log10(se)) - 1) * 0.5000001;
}
