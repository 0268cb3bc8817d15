/** How the next dives are made where nothing is asked: contours told from the depths at which dives began. By hand. */

import { expect, it } from 'vitest';
import type { HabitatRow } from '../../shared/survey.ts';
import { usualDive, usualSections } from '../../src/plan/usual.ts';
import { madeUpTransect } from './made-up.ts';

function contoursOf(...startsM: number[]): number[] {
  const label = (i: number): string => `T${i}`;
  const row = (i: number, distanceM: number, depthM: number): HabitatRow => ({
    transect: label(i),
    distanceM,
    substrate: ['sand'],
    plantCover: 0,
    depthM,
    row: 2,
  });
  return usualDive({
    transects: startsM.map((_, i) => madeUpTransect({ transect: label(i) })),
    // what lies farther along the rope says nothing of where it begins
    habitat: startsM.flatMap((depthM, i) => [row(i, 0, depthM), row(i, 30, depthM + 9)]),
  }).startDepthsM;
}

it.each<[string, number[], number[]]>([
  ['one, where they scatter about it', [1.1, 1.4, 1.2, 1.3, 1.2], [1.2]],
  ['two, where half begin farther out', [1, 3, 1, 3.1, 1.1, 3], [1, 3]],
  ['one, where a single dive of eleven began elsewhere', [...Array(10).fill(1), 6], [1]],
  // sorted, the third and the seventh of eight
  ['the quartiles of a slope', [1, 1.4, 1.8, 2.2, 2.6, 3, 3.4, 3.8], [1.8, 3.4]],
  // of six depths, the values at 1/8, 3/8, 5/8 and 7/8 of twelve
  ['four at most', [1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6], [1, 3, 4, 6]],
  ['none above the outermost cell of the map', [0, 0.1], [0.3]],
])('%s', (_, starts, contours) => {
  expect(contoursOf(...starts)).toEqual(contours);
});

it('several start depths have fewer stretches of the shore each', () => {
  expect([1, 2, 3, 4, 6].map(usualSections)).toEqual([4, 2, 1, 1, 1]);
});
