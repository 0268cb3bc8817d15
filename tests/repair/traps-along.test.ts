/**
 * What was noted along the rope: breaks, depths, units, and what lies beyond its end. Each slip of typed sheets is made
 * in a sound survey, found, and its repair gives back the cells as they were; or the program says why it cannot know.
 * What is expected is the sound survey itself, whose cells the repairs never see.
 */

import { describe, expect, it } from 'vitest';
import { all, dropRows, edit, setCell, swapRows } from '../helpers/bend.ts';
import { cannotKnow, D, H, restores, T } from './slips.ts';

describe('habitat', () => {
  it('breaks out of order', async () => {
    await restores(swapRows(H, 3, 4), 'breaks-not-increasing');
  });

  it('the whole transect typed from the end', async () => {
    await restores(all(swapRows(H, 2, 5), swapRows(H, 3, 4)), 'breaks-not-increasing');
  });

  it('a decimal point too many puts a break out of order, and its depth tells', async () => {
    await restores(setCell(H, 8, 'distance_m', '2.2'), 'breaks-not-increasing');
  });

  it('the first break is not at 0', async () => {
    await restores(setCell(H, 10, 'distance_m', '0.5'), 'first-habitat-not-at-0');
  });

  it('all distances counted from another mark', async () => {
    const from2 = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) =>
            before + (file === D ? (Number(m) + 2).toFixed(2) : String(Number(m) + 2)),
        ),
      );
    await restores(all(from2(H), from2(D)), 'first-habitat-not-at-0');
  });

  it('a first row that is missing cannot be known', async () => {
    await cannotKnow(dropRows(H, 6), 'first-habitat-not-at-0', /from 0 to 12 m stands in no table/);
  });

  it('a transect with no row anywhere', async () => {
    const bare = all(
      edit(H, (text) => text.replaceAll(/^T3,.*\n/gm, '')),
      edit(D, (text) => text.replaceAll(/^T3,.*\n/gm, '')),
    );
    await cannotKnow(bare, 'no-habitat', /habitat sheet/);
  });
});

describe('units', () => {
  /** as a gauge in feet would have given it, exactly (0.3048 m) */
  const feet = (m: string) => String(Number((Number(m) / 0.3048).toFixed(5)));
  const depths = (labels: RegExp) =>
    edit(H, (text) =>
      text.replaceAll(/^(T\d),(.*),([\d.]+)$/gm, (line, label: string, mid: string, m: string) =>
        labels.test(label) ? `${label},${mid},${feet(m)}` : line,
      ),
    );

  it('depths in feet, all of them', async () => {
    await restores(depths(/./), 'depth-in-feet');
  });

  it('depths in feet, on one transect', async () => {
    const repair = await restores(depths(/T3/), 'depth-in-feet-on-transect');
    expect(repair.why).toMatch(/3\.\d\d times those of the map/);
  });

  it('the length in feet', async () => {
    await restores(setCell(T, 3, 'length_m', feet('30')), 'rope-over-30-m');
  });

  it('length and distances in feet', async () => {
    const along = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) => before + feet(m),
        ),
      );
    await restores(
      all(setCell(T, 3, 'length_m', feet('30')), along(H), along(D)),
      'waypoints-disagree-with-rope',
    );
  });

  it('distances in feet, the length in metres', async () => {
    const along = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) => before + feet(m),
        ),
      );
    await restores(all(along(H), along(D)), 'past-rope-end');
  });

  it('perpendicular distances in centimetres', async () => {
    const cm = edit(D, (text) =>
      text.replaceAll(
        /^(T5,\w+,[\d.]+),([\d.]+)/gm,
        (_, before: string, m: string) => `${before},${Math.round(Number(m) * 100)}`,
      ),
    );
    await restores(cm, 'offset-past-width');
  });

  it('one perpendicular distance in centimetres', async () => {
    await restores(setCell(D, 20, 'offset_m', '72'), 'offset-past-width');
  });

  it('one that is past the width in any unit', async () => {
    await cannotKnow(setCell(D, 20, 'offset_m', '1.4'), 'offset-past-width', /no other unit/);
  });
});

describe("past the rope's end", () => {
  it('a decimal point lost', async () => {
    await restores(setCell(D, 3, 'distance_m', '1420'), 'past-rope-end');
  });

  it('a length with a digit lost', async () => {
    await restores(setCell(T, 2, 'length_m', '3'), 'past-rope-end');
  });

  it('a place that no slip explains', async () => {
    await cannotKnow(setCell(D, 5, 'distance_m', '35'), 'past-rope-end', /the sheet must tell/);
  });

  it('one depth that no rope can reach', async () => {
    await restores(setCell(H, 5, 'depth_m', '38'), 'depth-change-above-rope');
  });
});
