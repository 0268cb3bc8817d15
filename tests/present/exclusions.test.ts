/** What lies outside of the surveyed habitat. Figures by hand. */

import { describe, expect, it } from 'vitest';
import { REASONS } from '../../shared/survey.ts';
import { summary } from '../../src/cli/summary.ts';
import { exclusions, exclusionWords, neverSearched } from '../../src/present/exclusions.ts';
import { publish } from '../../src/publish/index.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

function partly(outside: { reason: string; area_m2: number }[], unmappedM2: number) {
  const result = handMadeResult();
  result.estimate.outside = outside;
  result.estimate.abundance!.unmapped_area_m2 = unmappedM2;
  result.domain = { classes: ['sand'], depthFromM: 0.5, depthToM: 7, plantCover: null };
  result.lake.substrate = [
    { substrate: ['sand'], plantCover: 0, polygons: [], feature: 1 },
    { substrate: ['mud', 'sand'], plantCover: 0, polygons: [], feature: 2 },
  ];
  return result;
}
const OUTSIDE = [
  { reason: 'substrate', area_m2: 106_000 },
  { reason: 'plant cover', area_m2: 0 },
  { reason: 'depth', area_m2: 301_000 },
];

describe('what lies outside', () => {
  it('is told by area and reason, with the substrates and depths that it is about', () => {
    expect(exclusions(partly(OUTSIDE, 830_000))!.text).toBe(
      'Outside of the surveyed habitat, and not in the number: 10.6 ha (substrate that was not searched: mud), ' +
        '30.1 ha (shallower or deeper than was searched, 0.5 to 7.0 m) and 83.0 ha (no substrate on the map). ' +
        'Mussels may live there too.',
    );
  });

  it('is told in acres and feet', () => {
    // 301,000 m² / 4,046.856 = 74.4 acres; 0.5 m = 1.6 ft, 7 m = 23.0 ft
    expect(exclusions(partly(OUTSIDE.slice(2), 0), 'imperial')!.text).toContain(
      '74.4 acres (shallower or deeper than was searched, 2 to 23 ft).',
    );
  });

  it('is not told of less than a square metre', () => {
    const { rows, text } = exclusions(partly([{ reason: 'depth', area_m2: 0.3 }], 9e-11))!;
    expect(rows).toEqual([]);
    expect(text).toBe("All of the lake's bed is in the number.");
  });

  it('is a table without empty rows', () => {
    // 106,000 m² = 26.2 acres, 301,000 m² = 74.4 acres
    expect(exclusions(partly(OUTSIDE, 0))!.rows).toEqual([
      {
        words: 'substrate that was not searched',
        area: '10.6 ha',
        areaBare: '10.6',
        acresBare: '26.2',
      },
      {
        words: 'shallower or deeper than was searched',
        area: '30.1 ha',
        areaBare: '30.1',
        acresBare: '74.4',
      },
    ]);
  });

  it('is nothing when all is in', () => {
    expect(exclusions(partly([], 0))).toEqual({
      rows: [],
      text: "All of the lake's bed is in the number.",
      interpolated: null,
    });
  });

  const made = (share: number | null) => {
    const result = partly(OUTSIDE, 0);
    result.estimate.interpolated_substrate = {
      points: 1204,
      greatest_distance_m: 50,
      leave_one_out_share: share,
      neighbours_within_m: share === null ? null : 20,
      leave_neighbours_out_share: share === null ? null : share / 2,
    };
    return result;
  };

  it('says how the bed is known where its map was made from points', () => {
    expect(exclusions(made(0.714))!.interpolated).toBe(
      'The substrate is known at 1,204 samples only: the map takes it from the nearest one, no farther than 50 m. Of the ' +
        'samples, left out one by one, 71.4 % are told right by the nearest other one; left out with all others within 20 m, since half of the map lies that far ' +
        'from its sample or farther, 35.7 %; no interval here covers that.',
    );
    // 50 / 0.3048 = 164.04
    expect(exclusions(made(null), 'imperial')!.interpolated).toContain(
      'no farther than 164 ft. How often that is right could not be judged',
    );
  });

  it('and terminal and report repeat it', () => {
    const said = exclusions(made(0.5))!.interpolated!;
    const terminal = summary(made(0.5), { bold: false }).replace(/\s+/g, ' ');
    expect(terminal).toContain(said);
    expect(publish(made(0.5)).get('report.html')).toContain(said);
  });

  it('cannot be told without a lake', () => {
    expect(exclusions(withoutLake())).toBeNull();
    expect(exclusions(nothingFound())).not.toBeNull();
  });

  it('names the substrates that no transect crossed', () => {
    expect(neverSearched(partly([], 0))).toEqual(['mud']);
  });
});

describe('reasons', () => {
  it('all have words', () => {
    for (const reason of REASONS.slice(1)) expect(exclusionWords(reason)).toMatch(/^[a-z ]+$/);
  });

  it('that nobody knows are an error', () => {
    expect(() => exclusionWords('toString')).toThrow(/got "toString" as a reason, expected one of/);
  });
});
