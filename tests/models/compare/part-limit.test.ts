/**
 * The limit for a part of the bed on which one survey detected nothing. For Poisson counts without covariates and observers who miss
 * nothing: of the part alone the exact conditional limit (Przyborowski & Wilenski 1940, Biometrika 31:313); against what is elsewhere
 * the profile of the four counts, worked out by hand: with h detections expected of the empty one the fall is
 * −n₁ log(1 − h/n₁) − c₂ log(1 − h/c₂) − c₁ log(1 + h/c₁).
 */

import { describe, expect, it } from 'vitest';
import { lessTotals, outsideAlone, withTreatedArea } from '../../../models/compare/baci.ts';
import { partLimit } from '../../../models/compare/part-limit.ts';
import { pairModels, type Season, seasonTotals } from '../../../models/compare/seasons.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { BARE, DROP, fitConverged, POISSON, root } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { writtenRows } from '../../helpers/written-rows.ts';

const OPTIONS = { level: 0.95, widened: 1, elsewhere: null };
/** transects of 10 m² by one pass, so that p = 1 is held */
function counted(inside: number[], outside: number[]): SurveyRows {
  const rows = writtenRows(
    [...inside, ...outside].map((first) => ({
      primary: 0,
      secondary: null,
      segments: [{ first, areaM2: 10 }],
    })),
    1,
    1,
  );
  return { ...rows, segments: rows.segments.map((s, i) => ({ ...s, treated: i < inside.length })) };
}
const BED = {
  count: 2,
  habitat: [0, 0],
  areaM2: [300, 700],
  depthM: [2, 3],
  band: [2, 3],
  reason: [0, 0],
};
const emptyOf = ({ segments }: SurveyRows) =>
  segments.flatMap((row) =>
    row.treated === true ? [{ row, habitat: { classes: [0], plantCover: 0, treated: true } }] : [],
  );

describe('a treated area where nothing was detected afterwards', () => {
  const [inside1, inside2] = [
    [12, 8],
    [0, 0, 0],
  ];
  const before = counted(inside1, [20, 30, 10]);
  const after = counted(inside2, [25, 25]);
  const members = [{ fit: fitConverged(before, BARE, POISSON), weight: 1 }];
  const made = withTreatedArea(before, BARE, members);
  if (!made.ok) throw new Error(made.why.cause);
  const first: Season = { rows: before, members: made.members };
  const all = [{ fit: fitConverged(after, BARE, POISSON), weight: 1 }];
  const second: Season = outsideAlone(after, BARE, all);
  const { pairs } = pairModels(first, second, null);

  it('has the exact conditional limit by itself', () => {
    const limit = partLimit([first, second], pairs, 1, emptyOf(after), OPTIONS);
    // 20 clusters on 20 m² against none on 30 m²
    expect(limit?.expected).toBeCloseTo(30, 5);
    expect(limit?.ratio).toBeCloseTo((0.05 ** (-1 / 20) - 1) / 1.5, 5);
  });

  it('has that of the four counts against the untreated', () => {
    const on = (
      season: Season,
      which: 0 | 1,
      treated: boolean,
      part: (s: { band: number }) => boolean,
    ) =>
      seasonTotals(
        season,
        which,
        pairs,
        [{ classes: [0], plantCover: 0, treated }],
        BED,
        [part],
        'clusters',
      )[0];
    const elsewhere = ([first, second] as const).map((season, s) =>
      lessTotals(
        on(season, s as 0 | 1, false, () => true),
        on(season, s as 0 | 1, false, (sum) => sum.band === 2),
      ),
    );
    const limit = partLimit([first, second], pairs, 1, emptyOf(after), {
      ...OPTIONS,
      elsewhere: [elsewhere[0], elsewhere[1]],
    });
    const [n1, c1, c2] = [20, 60, 50];
    // untreated: 60 on 30 m², then 50 on 20 m²
    const expected = (50 / 20 / (60 / 30)) * 1 * 30;
    expect(limit?.expected).toBeCloseTo(expected, 5);
    const h = root(
      (x) =>
        -n1 * Math.log(1 - x / n1) - c2 * Math.log(1 - x / c2) - c1 * Math.log(1 + x / c1) - DROP,
      0.1,
      15,
    );
    const exact = (h / expected) * ((1 + h / c1) / ((1 - h / n1) * (1 - h / c2)));
    // the three counts' errors are taken as those of one count: second order
    expect(Math.abs(Math.log((limit?.ratio ?? Number.NaN) / exact))).toBeLessThan(0.02);
    console.log(`against the untreated: ${limit?.ratio.toFixed(4)}, by hand ${exact.toFixed(4)}`);
  });
});

describe('a class on which one of two surveys detected nothing', () => {
  const ofClasses = (sand: number[], rock: number[]): SurveyRows =>
    writtenRows(
      [
        ...sand.map((first) => ({ first, classes: [0] })),
        ...rock.map((first) => ({ first, classes: [1] })),
      ].map((segment) => ({ primary: 0, secondary: null, segments: [{ ...segment, areaM2: 10 }] })),
      1,
      2,
    );
  const ANALYSIS = choices({ density: { plant_cover: 'none', depth: 'none' } });
  const season = (rows: SurveyRows): Season => ({
    rows,
    members: [{ fit: fitConverged(rows, ANALYSIS, POISSON), weight: 1 }],
  });

  it('has the exact limit of its own segments, in either order', () => {
    const [full, none] = [
      season(ofClasses([9, 6], [4, 3])),
      season(ofClasses([8, 2, 5], [0, 0, 0])),
    ];
    const empty = none.rows.segments.flatMap((row) =>
      row.classes[0] === 1 ? [{ row, habitat: { classes: [1], plantCover: 0 } }] : [],
    );
    // 7 clusters on 20 m² against none on 30 m²
    const exact = (0.05 ** (-1 / 7) - 1) / 1.5;
    const later = pairModels(full, none, null);
    expect(partLimit([full, none], later.pairs, 1, empty, OPTIONS)?.ratio).toBeCloseTo(exact, 5);
    const earlier = pairModels(none, full, null);
    expect(partLimit([none, full], earlier.pairs, 0, empty, OPTIONS)?.ratio).toBeCloseTo(exact, 5);
  });
});
