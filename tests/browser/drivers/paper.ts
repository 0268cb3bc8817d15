/** The page on paper: what is on it, and in which light. */

import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Station } from '../../../src/app/contract.ts';

/** Title and day, the map with its legend, the column, the credit line: no controls, nothing beyond the paper. */
export async function printsWell(page: Page, station: Station): Promise<void> {
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
}

/** The map cannot be painted any more once a browser prints: it is in light before, and dark again after. */
export async function printsInLight(page: Page): Promise<void> {
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
}
