/** A biologist opens sheets with errors, fixes them one by one, loses the browser, and finds the work again. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { axeFindings } from './drivers/accessibility.ts';
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

const NO_ZIP = Buffer.from('not a zip');
const DEMO = join(import.meta.dirname, '../../demo-lake');

/** Minnow Pond with two errors: a count of 0 in row 3, and an O for a 0 in the length of T3 (row 4). */
function withErrors(): Record<string, string> {
  const texts = beltSurvey();
  texts['detections.csv'] = texts['detections.csv'].replace(
    'T1,primary,14.20,,1',
    'T1,primary,14.20,,0',
  );
  texts['transects.csv'] = texts['transects.csv'].replace(/^(T3,.*),30,,6,/m, '$1,3O,,6,');
  return texts;
}

describe.skipIf(NO_BROWSER !== null)(
  `fixing a survey in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    const folder = join(testFolder(), 'minnow-pond');
    let server: TestServer;
    let browser: TestBrowser;
    let app: AppPage;
    /** Stays at the lake: the map is drawn anew for each station. */
    const lakeNumber = async (): Promise<number> => {
      await app.go('lake');
      const sentence = await app.sentence();
      return Number(/About ([\d,]+) mussels/.exec(sentence)![1].replaceAll(',', ''));
    };
    /** as it stands in the next test */
    let number: number;
    /** Takes back, or does again, from any station. */
    const press = async (keys: 'Control+z' | 'Control+Shift+Z'): Promise<void> => {
      await browser.page.keyboard.press(keys);
      await app.settled();
    };

    beforeAll(async () => {
      mkdirSync(folder);
      for (const [name, text] of Object.entries(withErrors()))
        writeFileSync(join(folder, name), text);
      server = await serveFolder(folder);
      browser = await openBrowser(SMALL);
      app = new AppPage(browser.page);
      await app.open(server.address);
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
    });

    it('lists both errors, and the way through the stations carries their number', async () => {
      expect(await app.openErrors()).toBe(2);
      expect(await app.sentence()).toBe('2 errors stop the estimate.');
      const errors = await app.errors();
      expect(errors).toHaveLength(2);
      expect(errors[0]).toMatch(/^transects\.csv row 4, length_m "3O" is not a number/);
      expect(errors[1]).toMatch(/^detections\.csv row 3, count /);
      await app.go('lake');
      expect(await app.sentence()).toContain('2 errors');
      await app.go('survey');
      await picture(browser.page, 'survey-errors.png');
    });

    it('sees an error vanish when its cell is corrected, a reason being asked for', async () => {
      await browser.page.locator('.finding.error .finding-button', { hasText: 'row 4' }).click();
      const form = browser.page.locator('form.cell-editor');
      await form.locator('input').first().fill('30');
      await form.getByRole('button', { name: 'Keep the change' }).click();
      expect(await form.innerText()).toContain('A reason is kept with every change');
      await picture(browser.page, 'survey-editor.png');
      await form.getByRole('button', { name: 'Cancel' }).click();
      // the repair that stands below the error does it by one press, and is taken back by another
      const { page } = browser;
      await page.getByText('Before and after').first().click();
      await picture(page, 'survey-repair.png');
      const repair = page.getByRole('button', { name: 'Set length_m to 30 (row 4)' });
      await repair.click();
      await expect.poll(() => app.openErrors()).toBe(1);
      await press('Control+z');
      await expect.poll(() => app.openErrors()).toBe(2);
      await repair.click();
      await expect.poll(() => app.openErrors()).toBe(1);
      await page.getByLabel(/^Your name/).fill('Ann');
    });

    it('has a number once the last error is fixed, and another one after a count is changed', async () => {
      await app.fix('detections.csv row 3', '1', 'observer asked');
      expect(await app.openErrors()).toBe(0);
      expect(await app.sentence()).toBe(
        '3 transects, 15 clusters: nothing stands in the way of the estimate.',
      );
      const first = await lakeNumber();
      await app.go('survey');
      await app.correct('detections', 4, 'count', '40', 'sheet read again');
      expect(await app.column()).toMatch(/detections\.csv row 4, count: 2 → 40/);
      number = await lakeNumber();
      expect(number).toBeGreaterThan(first);
      await press('Control+z');
      expect(await lakeNumber()).toBe(first);
      await press('Control+Shift+Z');
      expect(await lakeNumber()).toBe(number);
      await app.go('survey');
    });

    it('takes a row that was not typed in, and lets it go again', async () => {
      const { page } = browser;
      await page
        .getByRole('group', { name: 'Table' })
        .getByRole('button', { name: 'detections' })
        .click();
      await page.getByRole('button', { name: 'Add a row' }).click();
      const form = page.locator('form.row-editor');
      await form.getByLabel('count', { exact: true }).fill('9');
      await form.getByRole('button', { name: 'Add the row' }).click();
      expect(await form.innerText()).toContain('A reason is kept with every change');
      await picture(page, 'survey-row.png');
      expect(await axeFindings(page)).toEqual([]);
      await form.getByRole('button', { name: 'Cancel' }).click();
      await app.addRow(
        'detections',
        { transect: 'T2', role: 'primary', distance_m: '12.5', count: '60' },
        'on the sheet, not typed in',
      );
      expect(await app.sentence()).toContain('16 clusters');
      expect(await app.column()).toContain('detections.csv row 17 added');
      expect(await lakeNumber()).toBeGreaterThan(number);
      await app.go('survey');
      await app.undo();
      await app.redo();
      await app.undo();
      expect(await lakeNumber()).toBe(number);
    });

    it('prints sheets for the dives, and saves them as a file', async () => {
      const { page } = browser;
      await app.go('survey');
      await page.getByText('Sheets for the dives').click();
      await page.getByLabel('Blank sheets').fill('2.5');
      await page.getByRole('button', { name: 'Print the sheets' }).click();
      await page.getByText('a whole number from 0 to 200 is expected').waitFor();
      await page.getByLabel('Blank sheets').fill('2');
      await page.getByRole('button', { name: 'Letter' }).click();
      await page.getByRole('button', { name: 'Print the sheets' }).click();
      const printed = page.frameLocator('#printed-document');
      await printed.locator('.page').first().waitFor({ state: 'attached' });
      // two transects of two pages, and the key; styled: the policy of the page let the sheet of styles in
      expect(await printed.locator('.page').count()).toBe(5);
      const first = printed.locator('.page').first();
      const width = await first.evaluate((page) => getComputedStyle(page).width);
      expect(Number.parseFloat(width)).toBeCloseTo((186 / 25.4) * 96, 0);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save them as a file' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('minnow-pond-sheets.html');
      const text = readFileSync(await download.path(), 'utf8');
      expect(text).toContain('size: letter');
      await page.getByText('Sheets for the dives').scrollIntoViewIfNeeded();
      await picture(page, 'survey-sheets.png');
      expect(await axeFindings(page)).toEqual([]);
    });

    it('saves a zip with the changed tables, the changes and their reasons', async () => {
      const { page } = browser;
      await page.getByRole('button', { name: 'More' }).click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'Save the survey' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('minnow-pond-survey.zip');
      const files = unzipSync(new Uint8Array(readFileSync(await download.path())));
      const text = (name: string) => new TextDecoder().decode(files[name]);
      expect(Object.keys(files)).toEqual(
        expect.arrayContaining([...Object.keys(beltSurvey()), 'datapackage.json', 'history.csv']),
      );
      expect(text('outline.geojson')).toBe(beltSurvey()['outline.geojson']);
      expect(text('transects.csv')).toBe(beltSurvey()['transects.csv']);
      const changes = text('history.csv').split('\r\n');
      expect(changes[0]).toBe('when,who,table,row,column,old,new,why');
      expect(changes[1]).toMatch(
        /^[^,]+,,transects\.csv,4,length_m,3O,30,.*letter in place of a digit/,
      );
      expect(changes[2]).toMatch(/^[^,]+,Ann,detections\.csv,3,count,0,1,observer asked$/);
      expect(changes).toHaveLength(5); // header, three changes, the end of the last line
    });

    it('holds another copy of the survey against it, and takes a value of either', async () => {
      const { page } = browser;
      const other = beltSurvey()['transects.csv']!.replace(/^(T2,.*),30,,6,/m, '$1,28,,6,');
      const copy = (name: string, text: string) => ({
        name,
        mimeType: 'text/csv',
        buffer: Buffer.from(text),
      });
      const sheets = ['habitat.csv', 'detections.csv'].map((name) =>
        copy(name, beltSurvey()[name]!),
      );
      await page
        .locator('.copies input[type=file]')
        .setInputFiles([copy('transects.csv', other), ...sheets]);
      const length = page.locator('.difference', { hasText: 'transects.csv row 3, length_m' });
      await length.waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await length.scrollIntoViewIfNeeded();
      await picture(page, 'survey-copies.png');
      await length.getByRole('button', { name: '"30"' }).click();
      await length.waitFor({ state: 'detached' });
      await app.settled();
      expect(await app.column()).toContain(
        'two copies compared: "30" in this copy (Ann), "28" in the other copy',
      );
      await press('Control+z');
      await length.waitFor();
      await page.getByRole('button', { name: 'Done with the other copy' }).click();
    });

    it('finds the work again after the browser was killed', async () => {
      await app.saved(3);
      await browser.kill();
      browser = await openBrowser(SMALL, browser.profile);
      app = new AppPage(browser.page);
      await app.open(server.address);
      expect(await app.openErrors()).toBe(0);
      expect(await app.column()).toContain('3 changes kept');
      expect(await lakeNumber()).toBe(number);
      await press('Control+z');
      number = await lakeNumber();
      expect(await app.column()).toContain('2 changes kept');
    });

    it('works without server and network once it has been opened', async () => {
      await app.keptForOffline();
      await server.stop();
      await browser.context.setOffline(true);
      await app.open(server.address);
      expect(await lakeNumber()).toBe(number);
      await app.mapDrawn();
      // the demo lake is there, too; that such a page estimates it is seen in from-disk.test.ts
      const transects = await browser.page.evaluate(async () =>
        (await fetch('./demo-lake/transects.csv')).text(),
      );
      expect(transects).toBe(readFileSync(join(DEMO, 'transects.csv'), 'utf8'));
      await browser.context.setOffline(false);
    });

    it('opens a folder that is chosen, and files that are dropped', async () => {
      const { page } = browser;
      await page.getByRole('button', { name: 'More' }).click();
      await page.getByRole('button', { name: 'Open another survey' }).click();
      await picture(page, 'landing.png');
      await page.locator('input[webkitdirectory]').setInputFiles(folder);
      await app.settled();
      // the same files as before: what was changed in them is still there
      expect(await app.column()).toContain('2 changes kept');
      await app.dropFiles('elsewhere', {
        ...beltSurvey(),
        'detections.csv': 'transect,role,distance_m,offset_m,count\n',
      });
      await page.waitForSelector('.station h1:has-text("nothing detected")');
      await app.settled();
      expect(await app.sentence()).toBe('3 transects searched, nothing detected.');
      await app.go('lake');
      await picture(page, 'nothing-found.png');
      expect(await app.column()).toContain('That does not show that there are none');
    });

    it('adds single files to the survey that is open', async () => {
      await app.go('survey');
      await app.dropFiles('elsewhere', beltSurvey());
      await browser.page.waitForSelector('.station h1:has-text("15 clusters")');
      await app.settled();
      const outline = JSON.parse(beltSurvey()['outline.geojson']);
      outline.features[0].properties = { name: 'boat ramp' };
      await app.dropFiles('', { 'treatments.geojson': JSON.stringify(outline) });
      await browser.page.waitForSelector('text=Treatment areas');
      await app.settled();
      expect(await app.sentence()).toContain('15 clusters');
      await app.go('lake');
      expect(await app.column()).toContain('boat ramp');
    });

    it('holds a survey of another year against the open one: who is who is asked, what was treated is ticked, the result is saved', async () => {
      const { page } = browser;
      await app.go('change');
      const field = page.getByLabel('Another survey: its zip, or its files');
      await field.setInputFiles({ name: 'a.zip', mimeType: 'application/zip', buffer: NO_ZIP });
      await page.locator('.change-station .caution').waitFor();
      // the same sheets a year later
      const later = { ...beltSurvey() };
      later['transects.csv'] = later['transects.csv'].replaceAll('2025-', '2026-');
      const bytes = Object.entries(later).map(([name, text]) => [name, Buffer.from(text)] as const);
      await field.setInputFiles({
        name: 'pond-2026.zip',
        mimeType: 'application/zip',
        buffer: Buffer.from(zipSync(Object.fromEntries(bytes))),
      });
      const take = page.getByRole('button', { name: 'Take it as proposed' });
      await take.first().waitFor();
      expect(await app.sentence()).toMatch(/questions? (is|are) open/);
      await picture(page, 'change-questions.png');
      while ((await take.count()) > 0) {
        await take.first().click();
        await page.waitForSelector('.change-held[aria-busy="false"]');
      }
      expect(await app.sentence()).toMatch(
        /^[\d.]+ times as many mussels in pond-2026 as in elsewhere \(/,
      );
      expect(await app.column()).toMatch(/in elsewhere \(2025-.*in pond-2026 \(2026-/);
      // the image is drawn, not broken: an SVG without its namespace would be
      const map = page.locator('.change-map img');
      await map.waitFor();
      expect(
        await map.evaluate((img: HTMLImageElement) => img.decode().then(() => img.naturalWidth)),
      ).toBeGreaterThan(100);
      expect(await map.getAttribute('alt')).toMatch(/as many.*%/);
      await page.getByRole('checkbox', { name: 'boat ramp' }).check();
      // it is the whole lake: nothing untreated is left to hold it against
      await page.getByText('do not both have common ground').waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, 'change.png');
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'JSON' }).click(),
      ]);
      expect(JSON.parse(readFileSync(await download.path(), 'utf8'))).toMatchObject({
        schema: 'shoalwise/change/1',
        surveys: [{ survey: 'elsewhere' }, { survey: 'pond-2026' }],
        pairs: [{ treated: { why: 'off-common-ground' } }],
      });
      await page.getByRole('button', { name: 'Leave out pond-2026' }).click();
      expect(await app.sentence()).toContain('No other survey');
    });

    it('draws an area by mouse and by keyboard; its numbers follow the hand, and it is saved with the survey', async () => {
      const { page } = browser;
      await app.go('areas');
      await page.waitForSelector('.areas-station h1:has-text("1 treatment area holds")');
      await app.mapDrawn();
      const slate = page.locator('.area-slate');
      // around the western half of the searched depths, in degrees
      const [cx, cy] = [-93 + 25 / 78_847, 45 + 166 / 111_132];
      const [w, h] = [18 / 78_847, 50 / 111_132];
      const at = (east: number, north: number) => app.pixelOf([cx + east, cy + north]);
      const press = async (east: number, north: number) => {
        const { x, y } = await at(east, north);
        await page.mouse.move(x, y);
        await page.mouse.click(x, y);
      };
      await page.getByRole('button', { name: 'Draw an area' }).click();
      await press(-w, -h);
      await press(w, -h);
      await press(w, h);
      const third = await at(-w, h);
      await page.mouse.move(third.x, third.y);
      await expect.poll(() => slate.innerText()).toMatch(/mussels \(.*of them all/s);
      await page.mouse.click(third.x, third.y);
      await press(-w, -h); // on the first corner: closes
      await page.waitForSelector('.areas-station h1:has-text("2 treatment areas hold")');

      // dragged: another number before the hand lets go
      const before = await slate.innerText();
      const middle = await at(0, 0);
      await page.mouse.move(middle.x, middle.y);
      await page.mouse.down();
      const aside = await at(w, h);
      await page.mouse.move(aside.x, aside.y, { steps: 4 });
      await expect.poll(() => slate.innerText()).not.toBe(before);
      expect(await app.column()).toContain('follows when the hand lets go');
      await page.mouse.up();
      await expect.poll(() => app.column()).not.toContain('follows when the hand lets go');
      expect(await page.locator('.area-chosen h2').innerText()).toBe('Area 2');
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, 'areas-drawn.png');

      // by keyboard: moved, renamed, a corner typed that would make its line cross itself
      const moved = await slate.innerText();
      await page.getByRole('button', { name: 'Move with arrow keys' }).focus();
      await page.keyboard.press('Shift+ArrowLeft');
      await expect.poll(() => slate.innerText()).not.toBe(moved);
      await page.getByLabel('Name', { exact: true }).fill('Dock');
      await page.keyboard.press('Enter');
      await page.locator('.area-chosen h2', { hasText: 'Dock' }).waitFor();
      await page.getByText('Corners', { exact: true }).click();
      await page.getByLabel('Longitude of corner 1').fill((cx + 3 * w).toFixed(6));
      await page.keyboard.press('Enter');
      await page.getByText('crosses itself').first().waitFor();
      await page.getByRole('button', { name: 'Wider' }).click();
      await page.locator('.lake-name', { hasText: '5 changes kept' }).waitFor();
      await page.keyboard.press('Control+z');
      await page.locator('.lake-name', { hasText: '4 changes kept' }).waitFor();

      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: 'GPX' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('minnow-pond-areas.gpx');
      expect(readFileSync(await download.path(), 'utf8')).toContain('<name>Dock</name>');
      // the estimate has the new area once the station is left
      await app.go('lake');
      await app.settled();
      await expect.poll(() => app.column()).toContain('Dock');
      await app.go('survey');
      expect(await app.column()).toMatch(/treatments\.geojson: "Area 2" renamed to "Dock"/);
    });

    it('deals with an error in analysis.json by a press; keys take that back from any station', async () => {
      const { page } = browser;
      await app.go('survey');
      await app.dropFiles('', { 'analysis.json': '{"density": {"familly": "nb1"}}' });
      await page.getByText('unknown key "familly"').waitFor();
      await picture(page, 'survey-remedy.png');
      await page.getByRole('button', { name: 'Rename it to density.family' }).click();
      await app.settled();
      expect(await app.openErrors()).toBe(0);
      await app.go('lake');
      await page.getByRole('button', { name: /changes? kept/ }).click();
      expect(await app.column()).toContain('density.familly renamed to density.family');
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, 'changes-at-lake.png');
      await page.keyboard.press('Control+z');
      await expect.poll(() => app.openErrors()).toBe(1);
      await page.keyboard.press('Control+Shift+Z');
      await page.locator('.rope-errors').waitFor({ state: 'detached' });
      await app.settled();
      await app.go('survey');
    });

    it('estimates a variant again once the survey has changed under it', async () => {
      const { page } = browser;
      await app.go('density');
      await page.getByLabel('Keep these choices as').fill('At first');
      await page.keyboard.press('Enter');
      await page.getByLabel('Count distribution').selectOption('poisson');
      await app.settled();
      const kept = page.locator('.variant', { hasText: 'At first' });
      const number = async () => /[\d,]{4,}/.exec(await kept.innerText())?.[0];
      await expect.poll(number).toBeDefined();
      const before = await number();
      expect(await page.getByRole('button', { name: 'Estimate it again' }).count()).toBe(0);
      await app.go('survey');
      await app.correct('detections', 4, 'count', '40', 'sheet read again');
      await app.go('density');
      await page.getByRole('button', { name: 'Estimate it again' }).click();
      await expect.poll(number, { timeout: 30_000 }).not.toBe(before);
      expect(await page.getByRole('button', { name: 'Estimate it again' }).count()).toBe(0);
    });

    it('begins a survey that is typed in, with the allowed values to choose from', async () => {
      const { page } = browser;
      await page.getByRole('button', { name: 'More' }).click();
      await page.getByRole('button', { name: 'Open another survey' }).click();
      await page.getByRole('button', { name: 'Begin a new survey' }).click();
      expect(await page.getByRole('button', { name: 'Begin', exact: true }).isDisabled()).toBe(
        true,
      );
      await page.getByLabel(/^Name of the lake/).fill('Loon Lake 2026');
      await page.keyboard.press('Enter');
      await app.settled();
      expect(await page.locator('.lake-name').innerText()).toContain('Loon Lake 2026');
      expect(await app.sentence()).toBe('1 error stops the estimate.');
      await app.addRow('transects', { transect: 'T1', design: 'belt' }, 'first sheet');
      await page.locator('.sheet tr[aria-rowindex="2"] > :nth-child(4)').dblclick();
      const form = page.locator('form.cell-editor');
      const values = form.getByRole('group', { name: 'Allowed values' }).getByRole('button');
      expect(await values.allInnerTexts()).toEqual(['belt', 'distance']);
      await values.last().click();
      expect(await form.locator('input').first().inputValue()).toBe('distance');
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, 'new-survey.png');
      await form.getByRole('button', { name: 'Cancel' }).click();
      // a row without a date is a planned transect, which the Field log begins; the browser's own way leads back
      await page.getByRole('button', { name: 'Open the Field log' }).click();
      await page
        .getByRole('region', { name: 'Planned transects' })
        .getByRole('button', { name: 'T1' })
        .click();
      expect(await page.getByLabel('Date').inputValue()).toMatch(/^\d{4}-\d\d-\d\d$/);
      expect(await page.getByLabel('Length searched (m)').inputValue()).toBe('30');
      await picture(page, 'log-on-a-desk.png');
      await page.goBack();
      await app.settled();
      expect(await app.column()).toContain('length_m: blank → 30');
    });

    it('brings in files of others: a file that cannot be read first, then sheets and soundings by their questions', async () => {
      const { page } = browser;
      const bringIn = page.getByRole('button', { name: 'Bring it in' });
      const title = page.locator('.bring-in h1');
      await app.dropFiles('', { 'lake.shp': 'not a map', 'lake.gpkg': 'SQLite format 3\0' });
      await title.filter({ hasText: 'cannot be brought in as they are' }).waitFor();
      expect(await app.column()).toMatch(/lake\.shp: .*lake\.gpkg: /);
      expect(await bringIn.isDisabled()).toBe(true);
      await page.getByRole('button', { name: 'Leave without bringing anything in' }).click();
      expect(await page.locator('.lake-name').innerText()).toContain('Loon Lake 2026');

      const { 'transects.csv': sheet, 'depth.geojson': _, ...others } = beltSurvey();
      const comma = (text: string) => text.replaceAll(',', ';').replaceAll('.', ',');
      const dives = comma(sheet)
        .replace('transect;', 'Transect no;')
        .replace('length_m', 'Length (m)');
      const depths = [0, 1, 2, 3, 4].flatMap((row) =>
        Array.from({ length: 12 }, (_, depthM) => [45 + row * 6e-4, -93 + depthM / 7884.7, depthM]),
      );
      const soundings = depths.map((row) => comma(row.join(' , ')).replaceAll(' ', '')).join('\n');
      await app.dropFiles('', {
        ...others,
        'dives.csv': dives,
        'sonar.csv': `Latitude;Longitude;Depth (m)\n${soundings}\n`,
      });
      await title.filter({ hasText: /questions? (is|are) open/ }).waitFor();
      await page.getByRole('button', { name: 'A survey of their own' }).click();
      await page.getByLabel('Name of the survey').fill('Minnow 2027');
      const take = page.getByRole('button', { name: 'Take it as proposed' });
      await page.waitForSelector('.bring-in[aria-busy="false"]');
      expect(await axeFindings(page)).toEqual([]);
      await picture(page, 'bring-in.png');
      while ((await take.count()) > 0) {
        await take.first().click();
        await page.waitForSelector('.bring-in[aria-busy="false"]');
      }
      await title.filter({ hasText: 'the survey can be brought in' }).waitFor();
      await picture(page, 'bring-in-done.png');
      await bringIn.click();
      await app.settled();
      await app.go('survey');
      expect(await page.locator('.lake-name').innerText()).toContain('Minnow');
      expect(await app.sentence()).toContain('3 transects, 15 clusters');
    });

    it('shows a label from a file as text, whatever it holds', async () => {
      const texts = beltSurvey();
      const label = '<img src=x onerror=alert(1)>';
      for (const name of ['transects.csv', 'habitat.csv', 'detections.csv'])
        texts[name] = texts[name].replaceAll(/^T1,/gm, `${label},`);
      texts['analysis.json'] = JSON.stringify({ lake: label });
      await app.dropFiles('hostile', texts);
      await browser.page.waitForSelector('.lake-name:has-text("onerror")');
      await app.settled();
      for (const station of ['survey', 'transects', 'detection', 'density', 'lake'] as const) {
        await app.go(station);
        expect(await browser.page.locator('img[src="x"]').count()).toBe(0);
      }
      expect(await app.column()).toContain(label);
    });

    it('never asked anything of another origin', () => {
      expect([...browser.origins]).toEqual([server.address.replace(/\/$/, '')]);
    });
  },
);
