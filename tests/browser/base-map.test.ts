/** A base map of the user's own under the lake: from an address that the server was told, or from a file. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { beltSurvey } from '../helpers/base-survey.ts';
import { testFolder } from '../helpers/folder.ts';
import { archive, directory } from '../helpers/tile-archive.ts';
import { AppPage } from './drivers/app-page.ts';
import { NO_BROWSER, openBrowser, PATIENCE_MS, type TestBrowser } from './drivers/chromium.ts';
import { serveFolder, type TestServer } from './drivers/server.ts';

describe.skipIf(NO_BROWSER !== null)(
  `a base map in a browser${NO_BROWSER ? ` (${NO_BROWSER})` : ''}`,
  { timeout: PATIENCE_MS },
  () => {
    let tiles: Server;
    let address: string;
    let asked: string[];
    let file: Buffer;
    let server: TestServer;
    let browser: TestBrowser;
    let app: AppPage;

    beforeAll(async () => {
      browser = await openBrowser();
      file = Buffer.from(await redWorld(browser));
      asked = [];
      tiles = createServer((request, response) => {
        const [, from, to] = /bytes=(\d+)-(\d+)/.exec(request.headers.range ?? '')!.map(Number);
        asked.push(`${request.url} ${from}–${to}`);
        const part = file.subarray(from, to! + 1);
        response.writeHead(206, {
          'Access-Control-Allow-Origin': '*',
          'Content-Range': `bytes ${from}-${from! + part.length - 1}/${file.length}`,
          'Content-Length': part.length,
        });
        response.end(part);
      }).listen(0);
      address = `http://localhost:${(tiles.address() as AddressInfo).port}`;
      const folder = join(testFolder(), 'minnow-pond');
      mkdirSync(folder);
      for (const [name, text] of Object.entries(beltSurvey()))
        writeFileSync(join(folder, name), text);
      server = await serveFolder(folder, '--basemap', `${address}/world.pmtiles`);
      app = new AppPage(browser.page);
      await app.open(server.address);
      await app.go('lake');
      await app.mapDrawn();
      await app.openLegend();
    }, PATIENCE_MS);

    afterAll(async () => {
      await browser?.close();
      await server?.stop();
      tiles?.close();
    });

    /** On dry land, in a corner of the map. */
    const land = async () => {
      const box = (await browser.page.locator('.map-canvas').boundingBox())!;
      return app.colourAtPixel({ x: box.x + 20, y: box.y + 20 });
    };

    it('is off until it is chosen, then read in parts from the address alone', async () => {
      const { page } = browser;
      const paper = await land();
      expect(asked).toEqual([]);
      await page.getByText('Base map: none').click();
      await page.getByRole('button', { name: /^Use localhost/ }).click();
      await page.getByText(/Base map: localhost/).waitFor();
      await expect.poll(land).toBe('#ff0000');
      expect(asked.length).toBeGreaterThan(0);
      await page.getByRole('button', { name: 'Without a base map' }).click();
      await expect.poll(land).toBe(paper);
      expect(browser.complaints).toEqual([]);
    });

    it('comes from a file of this machine, and what is no such file is told', async () => {
      const { page } = browser;
      const before = asked.length;
      const choose = (name: string, buffer: Buffer) =>
        page
          .getByLabel('Use a PMTiles file')
          .setInputFiles({ name, mimeType: 'application/octet-stream', buffer });
      await choose('holiday.pmtiles', Buffer.from('GIF89a'));
      await page.getByText('This is not a PMTiles file.').waitFor();
      await choose('world.pmtiles', file);
      await page.getByText('Base map: world.pmtiles').waitFor();
      await expect.poll(land).toBe('#ff0000');
      expect(asked).toHaveLength(before);
    });
  },
);

/** An archive of one tile, the whole world in red, its picture drawn by the browser. */
async function redWorld({ page }: TestBrowser): Promise<Uint8Array> {
  const picture = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    canvas.width = 256;
    canvas.height = 256;
    const context = canvas.getContext('2d')!;
    context.fillStyle = '#f00';
    context.fillRect(0, 0, 256, 256);
    return canvas.toDataURL('image/png').replace(/^.*,/, '');
  });
  const data = Buffer.from(picture, 'base64');
  const root = directory([[0, 1, data.length, 1]]);
  return archive(root, new Uint8Array(), data, { 101: 0 });
}
