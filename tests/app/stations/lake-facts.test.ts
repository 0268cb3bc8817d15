/** What the Lake station says. Figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Domain, Lake } from '../../../shared/survey.ts';
import {
  bedRows,
  headlineAndRest,
  logTicks,
  missingFiles,
  neverSearched,
  outsideSentences,
  shareOfTotal,
} from '../../../src/app/stations/lake/lake-facts.ts';
import { answerSentence } from '../../../src/publish/answer.ts';
import { handMadeResult, nothingFound, withoutLake } from '../../helpers/result.ts';

const q = (estimate: number) => ({ estimate, se: null, cv: null, lower: null, upper: null });
const stratum = (substrate: string, from: number, areaM2: number, mussels: number | null) => ({
  substrate,
  depth_from_m: from,
  depth_to_m: from + 1,
  area_m2: areaM2,
  mussels_per_m2: mussels === null ? null : q(mussels / areaM2),
  mussels: mussels === null ? null : q(mussels),
});

describe('the answer', () => {
  it.each([
    ['with a number', handMadeResult()],
    ['without a lake', withoutLake()],
    ['nothing found', nothingFound()],
  ])('%s: headline and rest are the whole, word for word', (_, result) => {
    for (const units of ['metric', 'imperial'] as const) {
      const answer = answerSentence(result, units);
      const { headline, rest } = headlineAndRest(answer);
      expect(headline + rest).toBe(answer);
      expect(headline.endsWith('.')).toBe(true);
      expect(headline.length).toBeGreaterThan(20);
    }
  });

  it('is not cut at the point of a number', () => {
    expect(headlineAndRest('About 1.5 ha. Divers counted 3.')).toEqual({
      headline: 'About 1.5 ha.',
      rest: ' Divers counted 3.',
    });
  });
});

describe('where they are', () => {
  const rows = bedRows([
    stratum('sand', 1, 100, 50),
    stratum('sand', 2, 300, 350),
    stratum('rock', 1, 50, 100),
    stratum('mud', 1, 10, null),
  ]);

  it('sums each substrate over its depths, the densest first', () => {
    expect(rows.map((r) => [r.substrate, r.areaM2, r.mussels, r.perM2])).toEqual([
      ['rock', 50, 100, 2],
      ['sand', 400, 400, 1],
      ['mud', 10, null, null],
    ]);
  });

  it('keeps the strata under their substrate', () => {
    expect(rows[1]!.strata.map((s) => s.depth_from_m)).toEqual([1, 2]);
  });
});

describe('what is not in the number', () => {
  const domain: Domain = { classes: ['sand'], depthFromM: 0.5, depthToM: 7, plantCover: null };
  const lake: Lake = {
    outline: [],
    substrate: [
      { substrate: ['sand'], plantCover: 0, polygons: [], feature: 1 },
      { substrate: ['mud', 'sand'], plantCover: 0, polygons: [], feature: 2 },
    ],
    depth: null,
    treatments: [],
  };
  const abundance = {
    clusters: q(1),
    mussels: q(2),
    area_m2: 1,
    outside_area_m2: 1,
    unmapped_area_m2: 830_000,
  };
  const outside = [
    { reason: 'substrate', area_m2: 106_000 },
    { reason: 'depth', area_m2: 301_000 },
  ];

  it('names the substrates that no rope crossed', () => {
    expect(neverSearched(lake, domain)).toEqual(['mud']);
  });

  it('is told by area and reason', () => {
    expect(outsideSentences({ abundance, outside }, lake, domain, 'metric')).toEqual([
      'Mapped but not in the number: 10.6 ha on substrates that no rope crossed (mud) and 30.1 ha shallower or deeper than the 0.5 to 7.0 m that the survey speaks for.',
      'Another 83.0 ha of the lake has no substrate on the map.',
      'Mussels may live there too.',
    ]);
  });

  it('is told in acres and feet', () => {
    // 301,000 m² / 4,046.856 = 74.4 acres; 0.5 m = 1.6 ft, 7 m = 23.0 ft
    const [first] = outsideSentences(
      { abundance, outside: [outside[1]!] },
      lake,
      domain,
      'imperial',
    )!;
    expect(first).toBe(
      'Mapped but not in the number: 74.4 acres shallower or deeper than the 2 to 23 ft that the survey speaks for.',
    );
  });

  it('is nothing to tell when all is in, and unknown without a lake', () => {
    const all = { ...abundance, unmapped_area_m2: 0 };
    expect(outsideSentences({ abundance: all, outside: [] }, lake, domain, 'metric')).toEqual([]);
    expect(outsideSentences({ abundance: null, outside: null }, lake, domain, 'metric')).toBeNull();
  });
});

it('names the files that a lake-wide number needs', () => {
  expect(missingFiles({ outline: [], substrate: null, depth: null, treatments: [] })).toEqual([
    'substrate.geojson',
    'depth.geojson or depth.tif',
  ]);
});

it('gives a share only of a total above 0', () => {
  expect(shareOfTotal(q(5), q(20))).toBe(0.25);
  expect(shareOfTotal(q(5), q(0))).toBeNull();
  expect(shareOfTotal(null, q(20))).toBeNull();
});

describe('marks of the log axis', () => {
  it.each([
    [277_000, 738_000, 6, [300_000, 400_000, 500_000, 600_000]],
    [90, 5000, 6, [100, 200, 500, 1000, 2000, 5000]],
    [0.001, 1000, 6, []],
  ])('%f to %f', (from, to, most, ticks) => {
    const got = logTicks(from, to, most);
    expect(got.length).toBeLessThanOrEqual(most);
    ticks.forEach((t, i) => {
      expect(got[i]).toBeCloseTo(t, 9);
    });
    for (const t of got) expect(t >= from * 0.999 && t <= to * 1.001).toBe(true);
  });
});
