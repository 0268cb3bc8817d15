/** The Field log in a user's words: what is tapped is counted, and every target has to be large enough for a thumb. */

import type { Locator, Page } from 'playwright-core';

/** Pixels that a target must measure in both directions: as large as a fingertip (48 CSS px are some 9 mm). */
const THUMB_PX = 48;

export class LogPage {
  readonly page: Page;
  taps = 0;
  /** those that were too small, by what is written on them */
  readonly small: string[] = [];

  constructor(page: Page) {
    this.page = page;
    page.setDefaultTimeout(45_000);
  }

  /** The log without a transect open. */
  async opened(): Promise<void> {
    await this.page.getByRole('button', { name: /^New transect/ }).waitFor();
  }

  async tap(target: Locator): Promise<void> {
    const box = await target.boundingBox();
    // pixels of the layout may be cut in fractions
    if (box !== null && Math.min(box.width, box.height) < THUMB_PX - 0.5)
      this.small.push(`${await target.innerText()} ${box.width} × ${box.height}`);
    await target.click();
    this.taps += 1;
  }

  async press(name: string | RegExp, exact = typeof name === 'string'): Promise<void> {
    await this.tap(this.page.getByRole('button', { name, exact }));
  }

  async choose(group: string, value: string): Promise<void> {
    await this.tap(
      this.page
        .getByRole('group', { name: group })
        .or(this.page.getByRole('form', { name: group }))
        .getByRole('button', { name: value, exact: true }),
    );
  }

  async type(label: string, text: string): Promise<void> {
    await this.page.getByLabel(label, { exact: true }).fill(text);
  }

  async tab(name: 'Transect' | 'Habitat' | 'Detections' | 'Next'): Promise<void> {
    const parts = this.page.getByRole('navigation', { name: 'Parts of the log' });
    await this.tap(parts.getByRole('button', { name, exact: name === 'Transect' }));
  }

  /** A break by taps and a typed distance and depth. */
  async addBreak(
    distanceM: string,
    depthM: string,
    substrate: string[],
    plants: string,
  ): Promise<void> {
    await this.type('Distance along (m)', distanceM);
    await this.type('Depth (m)', depthM);
    for (const name of substrate) await this.choose('Substrate', name);
    if (substrate.length > 0) await this.choose('Plant cover', plants);
    await this.press(`Add at ${distanceM} m`);
  }

  /** A detection by taps alone. @returns how many it took */
  async detect(
    metre: number,
    half: boolean,
    who: string,
    count: number,
    offsetM?: string,
  ): Promise<number> {
    const before = this.taps;
    await this.choose('Metre of the transect', String(metre));
    if (half) await this.press('Distance along (m): 0.5 more');
    if (offsetM !== undefined) await this.choose('Perpendicular distance (m)', offsetM);
    await this.choose(`Add, found by ${who}`, String(count));
    return this.taps - before;
  }

  /** A cluster of five or more, counted up by these steps. @returns how many taps it took */
  async detectMore(metre: number, who: string, steps: readonly string[]): Promise<number> {
    const before = this.taps;
    await this.choose('Metre of the transect', String(metre));
    await this.choose(`Add, found by ${who}`, '5 or more');
    for (const step of steps) await this.choose(`Add, found by ${who}`, step);
    const tally = this.page.getByRole('form', { name: `Add, found by ${who}` });
    await this.tap(tally.getByRole('button', { name: /^Add/ }));
    return this.taps - before;
  }

  async kept(): Promise<void> {
    await this.page.waitForSelector('.log-kept[data-kept="true"]');
  }
}
