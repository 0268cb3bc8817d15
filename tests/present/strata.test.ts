/** Strata by substrate; figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import { plantBasis } from '../../src/present/plant-basis.ts';
import { shareOf, strata, substrateWords } from '../../src/present/strata.ts';
import { handMadeEstimate } from '../helpers/estimate.ts';
import { nothingFound } from '../helpers/result.ts';

const q = (estimate: number) => ({ estimate, se: null, cv: null, lower: null, upper: null });
const numbers = (areaM2: number, mussels: number | null) => ({
  area_m2: areaM2,
  mussels_per_m2: mussels === null ? null : q(mussels / areaM2),
  mussels: mussels === null ? null : q(mussels),
});
const stratum = (substrate: string, from: number, areaM2: number, mussels: number | null) => ({
  substrate,
  depth_from_m: from,
  depth_to_m: from + 1,
  ...numbers(areaM2, mussels),
});
const domain = { classes: [], depthFromM: 0.54, depthToM: 3, plantCover: null };
const withStrata = (
  rows: Estimate['strata'],
  margins: NonNullable<Estimate['margins']> = { by_substrate: [], by_depth: [] },
) => ({ domain, estimate: { ...handMadeEstimate(), strata: rows, margins } });

describe('strata by substrate', () => {
  const read = strata(
    withStrata(
      [
        stratum('sand', 1, 10_000, 5_000),
        stratum('sand', 2, 30_000, 35_000),
        stratum('sand+rock', 1, 5_000, 10_000),
        stratum('mud', 1, 1_000, null),
      ],
      {
        by_substrate: [
          { substrate: 'sand+rock', ...numbers(5_000, 10_000) },
          { substrate: 'sand', ...numbers(40_000, 40_000) },
          { substrate: 'mud', ...numbers(1_000, null) },
        ],
        by_depth: [
          { depth_from_m: 1, depth_to_m: 2, ...numbers(16_000, 15_000) },
          { depth_from_m: 2, depth_to_m: 3, ...numbers(30_000, 35_000) },
        ],
      },
    ),
  );
  const { substrates, depths, count, whole } = read;

  it('has each with the number of all its depths, the most mussels first', () => {
    expect(substrates.map((s) => [s.words, s.area, s.density[0], s.mussels[0]])).toEqual([
      ['sand', '4.00', '1.0', '40,000'],
      ['sand and rock', '0.50', '2.0', '10,000'],
      ['mud', '0.10', '–', '–'],
    ]);
  });

  it('has each depth band with the number on all substrates, from the shore down', () => {
    expect(depths.map((d) => [d.band, d.area, d.mussels[0]])).toEqual([
      ['1.0 to 2.0 m', '1.60', '15,000'],
      ['2.0 to 3.0 m', '3.00', '35,000'],
    ]);
  });

  it('gives shares of all mussels', () => {
    // of 184,321
    expect(substrates.map((s) => s.share?.text ?? null)).toEqual(['22 %', '5.4 %', null]);
    expect(depths.map((d) => d.share?.text)).toEqual(['8.1 %', '19 %']);
  });

  it('keeps the strata under their substrate, with depth band, area, density and number', () => {
    expect(substrates[0].strata).toEqual([
      {
        band: '1.0 to 2.0 m',
        fromM: 1,
        toM: 2,
        area: '1.00',
        density: ['0.50', '–'],
        mussels: ['5,000', '–'],
      },
      {
        band: '2.0 to 3.0 m',
        fromM: 2,
        toM: 3,
        area: '3.00',
        density: ['1.2', '–'],
        mussels: ['35,000', '–'],
      },
    ]);
    expect(count).toBe(4);
  });

  it('ends with the whole and its mean density', () => {
    // 184,321, 121,234 and 279,456 mussels on 148,000 m²; SE 39,000 / 148,000 = 0.26
    expect(whole).toEqual({
      area: '14.8',
      density: ['1.25', '0.82 to 1.89'],
      mussels: ['184,000', '121,000 to 279,000'],
    });
  });

  it('has bars as long as the numbers, on an axis for all of them', () => {
    expect(substrates.map((s) => s.value.mussels?.estimate ?? null)).toEqual([
      40_000,
      10_000,
      null,
    ]);
    expect(read.axis).toBe(40_000);
  });

  it('lets a wild limit run off the axis', () => {
    const { estimate } = withStrata(handMadeEstimate().strata);
    const row = { ...numbers(100, 10), mussels: { ...q(10), lower: 1, upper: 1_000 } };
    const margins = { by_substrate: [{ substrate: 'sand', ...row }], by_depth: [] };
    // 2.5 times the longest bar
    expect(strata({ domain, estimate: { ...estimate, margins } }).axis).toBe(25);
  });

  it('gives the interval of a substrate and an upper limit where nothing was detected', () => {
    const { substrates: rows, depths: bands } = strata({ domain, estimate: handMadeEstimate() });
    expect(rows.map((s) => s.mussels)).toEqual([
      ['52,000', '32,000 to 81,000'],
      ['31,400', '17,100 to 57,000'],
    ]);
    // a quarter of 8,600 is 2,150: hundreds
    expect(bands[1].mussels).toEqual(['0', 'up to 8,600']);
    // a quarter of 0.2 is 0.050: thousandths
    expect(rows[0].strata[1].density).toEqual(['0', 'up to 0.200']);
  });

  it('in acres and feet', () => {
    // 10,000 m² = 2.47 acres; 1 and 2 m = 3.3 and 6.6 ft
    const [sand] = strata(
      withStrata([stratum('sand', 1, 10_000, 5_000)], {
        by_substrate: [{ substrate: 'sand', ...numbers(10_000, 5_000) }],
        by_depth: [],
      }),
      'imperial',
    ).substrates;
    expect([sand.area, sand.strata[0].band]).toEqual(['2.47', '3 to 7 ft']);
  });

  it('shows of a depth band what lies within the surveyed depths', () => {
    const bands = (depthToM: number) =>
      strata({
        domain: { ...domain, depthToM },
        estimate: {
          ...handMadeEstimate(),
          margins: {
            by_substrate: [],
            by_depth: [0, 6, 7].map((m) => ({
              depth_from_m: m,
              depth_to_m: m + 1,
              ...numbers(100, 10),
            })),
          },
        },
      }).depths.map((d) => d.band);
    expect(bands(7)).toEqual(['0.5 to 1.0 m', '6.0 to 7.0 m', '7.0 m']);
    expect(bands(7.83)).toEqual(['0.5 to 1.0 m', '6.0 to 7.0 m', '7.0 to 7.8 m']);
  });
});

describe('plant cover', () => {
  const estimate = handMadeEstimate();
  it('is not named where the density does not depend on it', () => {
    expect(strata({ domain, estimate }).basis).toBeNull();
  });

  it('is named where the density depends on it, for tables and for curves', () => {
    const [first] = estimate.coefficients;
    const plants = { ...first, kind: 'plant_cover' as const, term: 'plant_cover' };
    const using = { estimate: { ...estimate, coefficients: [...estimate.coefficients, plants] } };
    expect(strata({ domain, ...using }).basis).toContain('plant cover on the map');
    expect(plantBasis(using)?.curves).toContain('plant cover that was recorded');
  });
});

describe('no strata', () => {
  it.each([
    [withStrata(null), 'Without maps of outline, substrate and depth'],
    [withStrata([]), 'No mapped bed lies within'],
    [nothingFound(), 'Nothing was detected'],
  ])('say why: case %#', (result, why) => {
    const { missing, substrates } = strata(result);
    expect(missing).toContain(why);
    expect(substrates).toEqual([]);
  });
});

it('puts a mixture in words', () => {
  expect(substrateWords('sand+gravel+rock')).toBe('sand, gravel and rock');
});

it('gives shares to two digits', () => {
  expect(shareOf(0.5649).text).toBe('56 %');
  expect(shareOf(0.0337).text).toBe('3.4 %');
});
