/** Changes as pictures: axes that hold what they show, and the same in rows. By hand. */

import { describe, expect, it } from 'vitest';
import type { ChangeFile, ChangeNumbers, ChangeRow, PairChange } from '../../shared/change.ts';
import type { Quantity } from '../../shared/estimate.ts';
import { readChange } from '../../src/present/change.ts';
import { ratioPicture, seriesPicture } from '../../src/present/change-pictures.ts';

const quantity = (estimate: number): Quantity => ({
  estimate,
  se: estimate / 10,
  cv: 0.1,
  lower: estimate * 0.8,
  upper: estimate * 1.25,
});
const ratio = (x: number, lower: number, upper: number): ChangeNumbers => ({
  ratio: x,
  se_log: 0.1,
  lower,
  upper,
  decline: 0.5,
  least_decline: 0.7,
  least_increase: 1.4,
  seen: false,
});
const row = (change: ChangeNumbers | null, substrate: string | null = null): ChangeRow => ({
  name: null,
  substrate,
  depth_from_m: 0,
  depth_to_m: 5,
  area_m2: 10_000,
  before: quantity(1000),
  after: quantity(500),
  change,
  limit: null,
});

function fileOf(total: ChangeRow, parts: ChangeRow[], shares = 1): ChangeFile {
  const pair: PairChange = {
    before: '2025',
    after: '2026',
    common: {
      area_m2: 10_000,
      share_before: 1,
      share_after: shares,
      depth_from_m: 0,
      depth_to_m: 5,
      substrates: ['sand'],
      same_maps: true,
      with_earlier_maps: null,
    },
    observers: {},
    substrates: {},
    detection: {
      used: false,
      observers: [],
      aicc_shared: null,
      aicc_separate: null,
      why: 'not-asked',
    },
    nothing: null,
    total,
    strata: [],
    by_substrate: parts,
    by_depth: [],
    areas: [],
    treated: null,
  };
  const survey = (name: string, from: string, mussels: number) => ({
    survey: name,
    lake: 'Pond',
    from,
    to: from,
    transects: 3,
    detections: 9,
    surveyed_m2: 10_000,
    mussels: quantity(mussels),
  });
  return {
    schema: 'shoalwise/change/1',
    version: '0',
    interval: 0.95,
    surveys: [survey('2025', '2025-07-01', 1000), survey('2026', '2026-07-01', 500)],
    pairs: [pair],
  };
}

describe('a change as a picture', () => {
  const file = fileOf(row(ratio(0.5, 0.4, 0.625)), [row(ratio(0.02, 1e-6, 5e6), 'sand')]);
  const read = readChange(file);
  const [pair] = read.pairs;

  it('has its answer at a glance', () => {
    expect(pair.headline).toBe(
      '0.500 times as many mussels in 2026 as in 2025 (95 % CI 0.400 to 0.625).',
    );
    const [none] = readChange(fileOf(row(null), [])).pairs;
    expect(none.headline).toBe('There is no ratio of the mussels in 2026 to those in 2025.');
    expect(ratioPicture(none, 0.95)).toBeNull();
  });

  it('has depth bands as far as they are common ground, in the reader’s units', () => {
    const band = (from: number, to: number): ChangeRow => ({
      ...row(ratio(1, 0.9, 1.1)),
      depth_from_m: from,
      depth_to_m: to,
    });
    const bands = fileOf(row(null), []);
    const [own] = bands.pairs;
    own.common = { ...own.common, depth_from_m: 0.6, depth_to_m: 2.4 };
    own.by_depth = [band(0, 1), band(1, 2), band(2, 3)];
    const said = readChange(bands).pairs[0];
    const names = ['0.6 to 1.0 m', '1.0 to 2.0 m', '2.0 to 2.4 m'];
    const table = said.tables.find((t) => t.caption === 'By depth')!;
    expect(table.rows.slice(1).map(([name]) => name)).toEqual(names);
    expect(said.bars.map((b) => b.name)).toEqual(names);
    // 0.6 m and 2.4 m over 0.3048: 1.97 and 7.87 ft
    expect(readChange(bands, 'imperial').pairs[0].opening).toContain('2 to 8 ft depth');
  });

  it('does not tell a least change of millions of percent', () => {
    const vast = { ...ratio(1, 1e-4, 1e4), least_decline: 1e-5, least_increase: 1e5 };
    const [none] = readChange(fileOf(row(vast), [])).pairs;
    expect(none.sure.at(-1)).toBe(
      'Pairs of surveys like these would not reliably show even 1,000 times as many, or as few.',
    );
    expect(pair.sure.at(-1)).toContain('decline by 30 % or an increase by 40 %');
  });

  it('ends limits that lie beyond a thousand times at the edge, and says them in the rows', () => {
    const picture = ratioPicture(pair, 0.95)!;
    expect(picture.bars.map((b) => [b.lower, b.upper])).toEqual([
      [0.4, 0.625],
      [0.001, 1000],
    ]);
    expect(picture.axis).toMatchObject({ from: 0.001, to: 1000 });
    expect(picture.axis.ticks.map((t) => t.label)).toEqual([
      '0.001',
      '0.01',
      '0.1',
      '1',
      '10',
      '100',
      '1,000',
    ]);
    expect(picture.rows[1]).toEqual(['sand', expect.stringContaining('under 0.001 to over 1,000')]);
  });

  it('has a line up to a stop, and no mark, where there is a limit alone', () => {
    const limit = { nothing_in: 'after' as const, ratio: 0.1, expected: 30, seen: true };
    const [told] = readChange(fileOf({ ...row(null), limit }, [])).pairs;
    const picture = ratioPicture(told, 0.95)!;
    expect(picture.bars[0]).toMatchObject({ ratio: null, lower: 0.05, upper: 0.1, stop: 0.1 });
    expect(picture.note).toContain('A line with a stop and no mark');
    expect(told.tables[0].rows[1].slice(4)).toEqual(['–', 'up to 0.1', '–']);
    expect(told.sure[1]).toBe(
      'As many as in 2025 lies beyond the limit: there are fewer, by 90 % or more.',
    );
    const least = { ...limit, nothing_in: 'before' as const, ratio: 8.39 };
    const [rise] = readChange(fileOf({ ...row(null), limit: least }, [])).pairs;
    // rounded so that it still holds
    expect(rise.headline).toBe(
      'Nothing was detected in 2025: at least 8.3 times as many mussels in 2026 as in 2025 (95 % lower limit).',
    );
    expect(ratioPicture(rise, 0.95)!.bars[0]).toMatchObject({ lower: 8.39, upper: 16.78 });
  });

  it('shows half and twice as many where all ratios are near 1', () => {
    const [near] = readChange(fileOf(row(ratio(1, 0.9, 1.1)), [])).pairs;
    expect(ratioPicture(near, 0.95)!.axis).toMatchObject({ from: 0.5, to: 2 });
  });

  it('joins surveys in time only where their surveyed habitats overlap enough', () => {
    const series = seriesPicture(read, file)!;
    expect(series.points.map((p) => [p.survey, p.lower, p.upper])).toEqual([
      ['2025', 800, 1250],
      ['2026', 400, 625],
    ]);
    expect(series.lines).toEqual([[0, 1]]);
    expect(series.axis.from).toBeLessThan(400);
    expect(series.axis.to).toBeGreaterThan(1250);
    const apart = fileOf(row(ratio(0.5, 0.4, 0.6)), [], 0.5);
    expect(seriesPicture(readChange(apart), apart)!.lines).toEqual([]);
    const alone = { ...file, surveys: file.surveys.slice(0, 1) };
    expect(seriesPicture(readChange(alone), alone)).toBeNull();
  });
});
