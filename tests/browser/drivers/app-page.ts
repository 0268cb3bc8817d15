/** The application in a user's words: what can be read on it and what can be done. */

import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { LngLat } from '../../../shared/survey.ts';
import type { Station } from '../../../src/app/contract.ts';

/** Under two cores with software graphics and other tests beside. */
const PATIENCE_MS = 45_000;

const NAMES: Record<Station, string> = {
  survey: 'Survey',
  transects: 'Transects',
  detection: 'Detection',
  density: 'Density',
  lake: 'Lake',
  areas: 'Areas',
  next: 'Next dives',
  change: 'Change',
};

export class AppPage {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
    page.setDefaultTimeout(PATIENCE_MS);
  }

  /** Opens the page and waits until nothing is being computed. */
  async open(address: string): Promise<void> {
    await this.page.goto(address);
    await this.settled();
  }

  /** A survey is open, and the last run is over. */
  async settled(): Promise<void> {
    await this.page.waitForSelector('.shell[data-run="idle"] .rope-mark:not(:disabled)');
  }

  /** The map has drawn everything it was asked for. */
  async mapDrawn(): Promise<void> {
    await this.page.waitForSelector('.map-canvas[data-map="idle"]');
    await this.page.waitForTimeout(250); // a layer painted meanwhile makes it busy again
    await this.page.waitForSelector('.map-canvas[data-map="idle"]');
  }

  /** It begins closed where the lake leaves it no room. */
  async openLegend(): Promise<void> {
    const legend = this.page.locator('.map-legend');
    if ((await legend.getAttribute('open')) === null)
      await legend.locator('summary').first().click();
  }

  async go(station: Station): Promise<void> {
    await this.page
      .getByRole('navigation', { name: 'Stations' })
      .getByRole('button', { name: NAMES[station] })
      .click();
    await this.page.waitForSelector(`.shell[data-station="${station}"]`);
    await this.page.waitForSelector('.station h1');
  }

  /** The station's opening sentence, as it would be read aloud. */
  async sentence(): Promise<string> {
    return tidy(await this.page.locator('.station h1').first().innerText());
  }

  /** Everything in the column. */
  async column(): Promise<string> {
    return tidy(await this.page.locator('.column').innerText());
  }

  // ---- the survey and its errors ----

  /** The number that the rope's first mark carries; 0 when it carries none. */
  async openErrors(): Promise<number> {
    const badge = this.page.locator('.rope-errors');
    return (await badge.count()) === 0 ? 0 : Number((await badge.innerText()).match(/\d+/)![0]);
  }

  async errors(): Promise<string[]> {
    const list = this.page.locator('.finding.error .finding-button');
    return (await list.allInnerTexts()).map(tidy);
  }

  /** Presses on an error in the list, so that its cell is shown, and corrects the cell. */
  async fix(error: string, value: string, reason: string): Promise<void> {
    await this.page.locator('.finding.error .finding-button', { hasText: error }).click();
    await this.correctOpenCell(value, reason);
  }

  /** Opens a cell of a table by double click and corrects it. */
  async correct(
    table: string,
    row: number,
    column: string,
    value: string,
    reason: string,
  ): Promise<void> {
    await this.openCell(table, row, column);
    await this.correctOpenCell(value, reason);
  }

  private async openCell(table: string, row: number, column: string): Promise<void> {
    const tables = this.page.getByRole('group', { name: 'Table' });
    await tables.getByRole('button', { name: table }).click();
    const header = await this.page.locator('.sheet thead th').allInnerTexts();
    const at = header.findIndex((name) => name.trim() === column);
    await this.page.locator(`.sheet tr[aria-rowindex="${row}"] > :nth-child(${at + 1})`).dblclick();
  }

  async correctOpenCell(value: string, reason: string): Promise<void> {
    await this.keepCell(value, reason);
    await this.settled();
  }

  /** Corrects a cell, and stops the estimate that follows. */
  async changeAndCancel(
    table: string,
    row: number,
    column: string,
    value: string,
    reason: string,
  ): Promise<void> {
    await this.openCell(table, row, column);
    await this.keepCell(value, reason);
    await this.page.locator('.progress').getByRole('button', { name: 'Cancel' }).click();
    await this.settled();
  }

  private async keepCell(value: string, reason: string): Promise<void> {
    const form = this.page.locator('form.cell-editor');
    await form.locator('input').first().fill(value);
    await form.getByLabel('Reason').fill(reason);
    await form.getByRole('button', { name: 'Keep the change' }).click();
    await form.waitFor({ state: 'detached' });
  }

  /** Types a new row into the form under a table; columns that are not named stay blank. */
  async addRow(table: string, cells: Record<string, string>, reason: string): Promise<void> {
    await this.page
      .getByRole('group', { name: 'Table' })
      .getByRole('button', { name: table })
      .click();
    await this.page.getByRole('button', { name: 'Add a row' }).click();
    const form = this.page.locator('form.row-editor');
    for (const [column, value] of Object.entries(cells))
      await form.getByLabel(column, { exact: true }).fill(value);
    await form.getByLabel('Reason').fill(reason);
    await form.getByRole('button', { name: 'Add the row' }).click();
    await form.waitFor({ state: 'detached' });
    await this.settled();
  }

  async undo(): Promise<void> {
    await this.page.getByRole('button', { name: 'Undo' }).click();
    await this.settled();
  }

  async redo(): Promise<void> {
    await this.page.getByRole('button', { name: 'Redo' }).click();
    await this.settled();
  }

  /** Drops files on the page as if they came from a folder of the desktop; as single files with a blank name. */
  async dropFiles(name: string, files: Record<string, string>): Promise<void> {
    await this.page.evaluate(
      ({ name, files }) => {
        const transfer = new DataTransfer();
        for (const [file, text] of Object.entries(files)) {
          const dropped = new File([text], file);
          const path = name === '' ? '' : `${name}/${file}`;
          Object.defineProperty(dropped, 'webkitRelativePath', { value: path });
          transfer.items.add(dropped);
        }
        window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, cancelable: true }));
      },
      { name, files },
    );
  }

  /** The survey is on disk with so many changes. */
  async saved(changes: number): Promise<void> {
    await this.page.waitForSelector(`html[data-saved="${changes}"]`, { state: 'attached' });
  }

  /** The page and all it needs are in the browser's cache, and it is the cache that answers. */
  async keptForOffline(): Promise<void> {
    // a wait for a function would need eval, which the page's policy forbids
    const state = () =>
      this.page.evaluate(async () => {
        const there = await navigator.serviceWorker.getRegistration();
        return `${there?.active?.state ?? 'not there'}, ${navigator.serviceWorker.controller ? '' : 'not '}in control`;
      });
    await expect.poll(state, { timeout: PATIENCE_MS }).toBe('activated, in control');
  }

  // ---- the map ----

  /** Where on the screen a place of the lake is drawn. Web Mercator as MapLibre has it: 512 px for the world at zoom 0. */
  async pixelOf(at: LngLat): Promise<{ x: number; y: number }> {
    const map = this.page.locator('.map-canvas');
    const [lng, lat, zoom] = (await map.getAttribute('data-view'))!.split(',').map(Number);
    const box = (await map.boundingBox())!;
    const world = 512 * 2 ** zoom!;
    const [x, y] = mercator(at);
    const [cx, cy] = mercator([lng!, lat!]);
    return {
      x: box.x + box.width / 2 + (x - cx) * world,
      y: box.y + box.height / 2 + (y - cy) * world,
    };
  }

  /** Points at a place and reads the card that appears there. */
  async pointAt(at: LngLat): Promise<string> {
    const { x, y } = await this.pixelOf(at);
    await this.page.mouse.move(x - 3, y - 3);
    await this.page.mouse.move(x, y);
    const card = this.page.locator('.map-card-body');
    await card.waitFor();
    return tidy(await card.innerText());
  }

  /** The colour of one pixel of the map's canvas. */
  async colourAt(at: LngLat): Promise<string> {
    return this.colourAtPixel(await this.pixelOf(at));
  }

  /** The same at a place of the window. */
  async colourAtPixel({ x, y }: { x: number; y: number }): Promise<string> {
    return this.page.evaluate(
      ({ x, y }) => {
        const canvas = document.querySelector<HTMLCanvasElement>('.map-canvas canvas')!;
        const box = canvas.getBoundingClientRect();
        const copy = document.createElement('canvas');
        copy.width = canvas.width;
        copy.height = canvas.height;
        const context = copy.getContext('2d')!;
        context.drawImage(canvas, 0, 0);
        const scale = canvas.width / box.width;
        const at = [(x - box.x) * scale, (y - box.y) * scale] as const;
        const [r, g, b] = context.getImageData(at[0], at[1], 1, 1).data;
        return `#${[r, g, b].map((c) => c!.toString(16).padStart(2, '0')).join('')}`;
      },
      { x, y },
    );
  }

  /** Pixels of the map in the colour of what is pointed at, or nearly: a coarsely drawn line mixes with what it lies on. */
  async accentOnMap(): Promise<number> {
    return this.page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.map-canvas canvas')!;
      const copy = document.createElement('canvas');
      copy.width = canvas.width;
      copy.height = canvas.height;
      const context = copy.getContext('2d')!;
      context.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--accent');
      context.fillRect(0, 0, 1, 1);
      const [r, g, b] = context.getImageData(0, 0, 1, 1).data;
      context.drawImage(canvas, 0, 0);
      const { data } = context.getImageData(0, 0, copy.width, copy.height);
      let n = 0;
      for (let i = 0; i < data.length; i += 4)
        if (Math.hypot(data[i]! - r!, data[i + 1]! - g!, data[i + 2]! - b!) < 30) n++;
      return n;
    });
  }
}

/** One line, single spaces. */
function tidy(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}

/** Share of the world's width and height. */
function mercator([lng, lat]: LngLat): [number, number] {
  const y = Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360));
  return [(lng + 180) / 360, (1 - y / Math.PI) / 2];
}
