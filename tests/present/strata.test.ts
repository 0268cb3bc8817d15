/** Strata by substrate; figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import { shareOf, strata, substrateWords } from '../../src/present/strata.ts';
import { handMadeEstimate, nothingFound } from '../helpers/result.ts';

const q = (estimate: number) => ({ estimate, se: null, cv: null, lower: null, upper: null });
const stratum = (substrate: string, from: number, areaM2: number, mussels: number | null) => ({
  substrate,
  depth_from_m: from,
  depth_to_m: from + 1,
  area_m2: areaM2,
  mussels_per_m2: mussels === null ? null : q(mussels / areaM2),
  mussels: mussels === null ? null : q(mussels),
});
const withStrata = (rows: Estimate['strata']) => ({
  estimate: { ...handMadeEstimate(), strata: rows },
});

describe('strata by substrate', () => {
  const { substrates, count, whole } = strata(
    withStrata([
      stratum('sand', 1, 10_000, 5_000),
      stratum('sand', 2, 30_000, 35_000),
      stratum('sand+rock', 1, 5_000, 10_000),
      stratum('mud', 1, 1_000, null),
    ]),
  );

  it('sums each over its depths, the densest first', () => {
    // 10,000 / 5,000 = 2 per m², 40,000 / 40,000 = 1 per m²
    expect(substrates.map((s) => [s.words, s.area, s.density, s.mussels])).toEqual([
      ['sand and rock', '0.50', '2', '10,000'],
      ['sand', '4.00', '1', '40,000'],
      ['mud', '0.10', '–', '–'],
    ]);
  });

  it('gives shares of all mussels', () => {
    expect(substrates.map((s) => s.share?.text ?? null)).toEqual(['20 %', '80 %', null]);
  });

  it('keeps the strata under their substrate, with depth band, area, density and number', () => {
    expect(substrates[1].strata).toEqual([
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

  it('ends with the whole', () => {
    expect(whole).toEqual({ area: '14.8', mussels: ['184,000', '121,000 to 279,000'] });
  });

  it('shows an upper limit where nothing was detected', () => {
    const rock = strata(withStrata(handMadeEstimate().strata)).substrates[0];
    // a quarter of 0.2 is 0.050: thousandths
    expect(rock.strata[1].density).toEqual(['0', 'up to 0.200']);
  });

  it('in acres and feet', () => {
    // 10,000 m² = 2.47 acres; 1 and 2 m = 3.3 and 6.6 ft
    const sand = strata(withStrata([stratum('sand', 1, 10_000, 5_000)]), 'imperial').substrates[0];
    expect([sand.area, sand.strata[0].band]).toEqual(['2.47', '3 to 7 ft']);
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
