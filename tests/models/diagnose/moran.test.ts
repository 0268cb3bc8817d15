/** Moran's I against spdep and ape (tests/published/scripts/moran.R), and its permutation p. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { moranI, moranTest, nearestWeights, type Weights } from '../../../models/diagnose/moran.ts';
import { seeded } from '../../../models/numbers/random.ts';
import figures from '../../published/data/moran.json' with { type: 'json' };

const DATA = join(import.meta.dirname, '../../published/data');

const table = (file: string): number[][] =>
  readFileSync(join(DATA, file), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(',').map(Number));

const standardised = (neighbours: number[][]): Weights =>
  neighbours.map((own) => own.map((j): [number, number] => [j, 1 / own.length]));

function columbus(): { crime: number[]; weights: Weights } {
  const crime = table('columbus_crime.csv').map(([, value]) => value);
  const neighbours: number[][] = crime.map(() => []);
  for (const [i, j] of table('columbus_nb.csv')) neighbours[i - 1].push(j - 1);
  return { crime, weights: standardised(neighbours) };
}

/** A lattice of 3 × 3, columns first; cells that share an edge are neighbours. */
const LATTICE = [3, 5, 2, 8, 9, 7, 4, 6, 1];
const ROOK = LATTICE.map((_, i) =>
  LATTICE.flatMap((__, j) =>
    Math.abs((i % 3) - (j % 3)) + Math.abs(Math.floor(i / 3) - Math.floor(j / 3)) === 1 ? [j] : [],
  ),
);

describe('Moran’s I', () => {
  it('of crime in Columbus, neighbours row-standardised', () => {
    const { crime, weights } = columbus();
    expect(crime).toHaveLength(49);
    expect(weights.flat()).toHaveLength(232);
    // Anselin (1988); spdep moran.test
    expect(moranI(crime, weights)).toBeCloseTo(figures.columbus.i, 12);
  });

  it('of a small lattice', () => {
    const binary = ROOK.map((own) => own.map((j): [number, number] => [j, 1]));
    expect(moranI(LATTICE, binary)).toBeCloseTo(figures.lattice.binary, 12);
    expect(moranI(LATTICE, standardised(ROOK))).toBeCloseTo(figures.lattice.standardised, 12); // ape Moran.I
  });

  it('does not exist for equal values or without neighbours', () => {
    expect(moranI([2, 2, 2, 2], standardised([[1], [0], [3], [2]]))).toBeNull();
    expect(moranI([1, 2, 3, 4], [[], [], [], []])).toBeNull();
  });

  it('does not depend on units or on where zero is', () => {
    const { crime, weights } = columbus();
    const other = crime.map((v) => 1000 - 7 * v);
    expect(moranI(other, weights)).toBeCloseTo(moranI(crime, weights) as number, 12);
  });
});

describe('the permutation p', () => {
  const shuffleBy = (seed: number) => {
    const random = seeded(seed);
    return (items: number[]) => random.shuffle(items);
  };

  it('is as small as 999 rearrangements can show for crime in Columbus', () => {
    const { crime, weights } = columbus();
    // spdep: (0.511 + 0.021)/√0.00891 = 5.6 standard deviations, so none of 999 reaches it
    expect(moranTest(crime, weights, shuffleBy(1))).toMatchObject({ p: 0.001 });
  });

  it('is two-sided: a chessboard is as remarkable as a patch', () => {
    const board = Array.from({ length: 36 }, (_, i) => (Math.floor(i / 6) + i) % 2);
    const weights = standardised(
      board.map((_, i) =>
        [i - 6, i + 6, i % 6 > 0 ? i - 1 : -1, i % 6 < 5 ? i + 1 : -1].filter(
          (j) => j >= 0 && j < 36,
        ),
      ),
    );
    const test = moranTest(board, weights, shuffleBy(2));
    expect(test?.i).toBeCloseTo(-1, 12); // by hand: every neighbour is of the other colour
    expect(test?.p).toBe(0.001);
  });

  it('agrees with all 24 rearrangements of four values', () => {
    const values = [1, 2, 4, 8];
    const line = standardised([[1], [0, 2], [1, 3], [2]]);
    const observed = moranI(values, line) as number;
    const all = permutations(values).map((v) => moranI(v, line) as number);
    const share =
      all.filter((i) => Math.abs(i + 1 / 3) >= Math.abs(observed + 1 / 3) - 1e-12).length / 24;
    const p = moranTest(values, line, shuffleBy(3))?.p as number;
    // 999 draws: 5 standard errors
    expect(Math.abs(p - share)).toBeLessThan(5 * Math.sqrt((share * (1 - share)) / 999) + 0.001);
  });

  it('is uniform where nothing is there: seldom below 0.05 over 200 surveys', () => {
    const random = seeded(4);
    const weights = nearestWeights(
      Array.from({ length: 30 }, () => [1000 * random.uniform(), 1000 * random.uniform()]),
    );
    let below = 0;
    for (let k = 0; k < 200; k++) {
      const values = Array.from({ length: 30 }, () => random.normal());
      const test = moranTest(values, weights, (v) => random.shuffle(v));
      if ((test?.p as number) < 0.05) below++;
    }
    // binomial(200, 0.05): mean 10, standard deviation 3.1; 25 is 5 of them away
    expect(below).toBeLessThanOrEqual(25);
    expect(below).toBeGreaterThan(0);
  });

  it('is not asked of fewer than four', () => {
    expect(moranTest([1, 2, 3], standardised([[1], [0], [1]]), shuffleBy(1))).toBeNull();
  });

  it('repeats with its seed', () => {
    const weights = standardised(ROOK);
    expect(moranTest(LATTICE, weights, shuffleBy(5))).toEqual(
      moranTest(LATTICE, weights, shuffleBy(5)),
    );
  });
});

describe('neighbours', () => {
  it('are the four nearest by inverse distance, summing to 1', () => {
    const line: [number, number][] = [0, 10, 30, 70, 150, 310].map((x) => [x, 0]);
    const [first] = nearestWeights(line);
    // by hand: 1/10, 1/30, 1/70, 1/150 over their sum 0.154286
    expect(first.map(([j]) => j)).toEqual([1, 2, 3, 4]);
    expect(first[0][1]).toBeCloseTo(0.1 / (0.1 + 1 / 30 + 1 / 70 + 1 / 150), 12);
    for (const row of nearestWeights(line))
      expect(row.reduce((sum, [, w]) => sum + w, 0)).toBeCloseTo(1, 12);
  });

  it('count as 1 m apart when they lie closer', () => {
    const rows = nearestWeights([
      [0, 0],
      [0, 0],
      [2, 0],
    ]);
    // by hand: weights 1 and 1/2
    expect(rows[0]).toEqual([
      [1, 2 / 3],
      [2, 1 / 3],
    ]);
  });
});

function permutations(items: number[]): number[][] {
  if (items.length < 2) return [items];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}
