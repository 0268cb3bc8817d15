/** Whether the page stands still: nothing larger than the window, nothing wider than its column, the map never pushed out of sight. */

import type { Page } from 'playwright-core';

/** Where the document is and how far it could be moved, px; all 0 in a page that stands still. */
interface Stray {
  tall: number;
  wide: number;
  movedX: number;
  movedY: number;
}

export const STILL: Stray = { tall: 0, wide: 0, movedX: 0, movedY: 0 };

/** Wheel, keys and swipe, each further than any column is long, then how far the document went with them. */
export async function pushed(page: Page): Promise<Stray> {
  const column = page.locator('.column');
  const box = await column.boundingBox();
  if (box === null) throw new Error('got no column, expected an open survey');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.wheel(0, 60_000);
  await page.mouse.wheel(0, 2_000);
  for (const key of ['End', 'PageDown', 'Space']) await column.press(key);
  const session = await page.context().newCDPSession(page);
  await session.send('Input.synthesizeScrollGesture', {
    x,
    y,
    yDistance: -2_000,
    speed: 20_000,
    gestureSourceType: 'touch',
  });
  await session.detach();
  return page.evaluate(() => {
    const root = document.documentElement;
    const shell = document.querySelector('.shell');
    return {
      tall: root.scrollHeight - innerHeight,
      wide: root.scrollWidth - innerWidth,
      movedX: Math.max(scrollX, -(shell?.getBoundingClientRect().x ?? 0)),
      movedY: Math.max(scrollY, -(shell?.getBoundingClientRect().y ?? 0)),
    };
  });
}

/**
 * What is wider than its column, by its class and how far it stands out: as it stands, with all opened that is folded away,
 * and after that is closed again (a plot might keep the width that it had meanwhile).
 */
export async function tooWide(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const column = document.querySelector('.column');
    if (column === null) throw new Error('got no column, expected one');
    const folded = [...column.querySelectorAll<HTMLDetailsElement>('details:not([open])')];
    const look = async (when: string): Promise<string[]> => {
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      const edge = column.getBoundingClientRect().x + column.clientWidth + 0.5;
      const out = [...column.querySelectorAll('.table-scroll, .sheet, .figure, .plot, svg')]
        .filter((part) => part.parentElement?.closest('.table-scroll, .sheet') === null)
        .map((part) => ({ part, by: Math.round(part.getBoundingClientRect().right - edge) }))
        .filter(({ by }) => by > 0)
        .map(({ part, by }) => `${when}: ${part.tagName} ${part.getAttribute('class')} by ${by}`);
      const scrolls = column.scrollWidth - column.clientWidth;
      return scrolls > 0 ? [...out, `${when}: the column by ${scrolls}`] : out;
    };
    const before = await look('closed');
    for (const one of folded) one.open = true;
    const opened = await look('opened');
    for (const one of folded) one.open = false;
    return [...before, ...opened, ...(await look('closed again'))];
  });
}
