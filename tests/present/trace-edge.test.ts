/** The edge of an area of cells, traced around small grids by hand. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { traceEdge } from '../../src/present/trace-edge.ts';

const grid = (...rows: string[]) =>
  [
    rows.flatMap((r) => [...r].map((c) => (c === '#' ? 1 : 0))),
    rows[0].length,
    rows.length,
  ] as const;

describe('traceEdge', () => {
  it('runs through the middles of a single cell’s sides', () => {
    expect(traceEdge(...grid('...', '.#.', '...'))).toEqual([
      [
        [1.5, 1],
        [2, 1.5],
        [1.5, 2],
        [1, 1.5],
        [1.5, 1],
      ],
    ]);
  });

  it('cuts the corners of a block and nothing else', () => {
    const [ring] = traceEdge(...grid('###', '###'));
    expect(ring).toHaveLength(9); // two points a corner, and the first again
    expect(ring![0]).toEqual(ring!.at(-1));
    expect(shoelace(ring!)).toBeCloseTo(6 - 4 * 0.125, 12); // four triangles of legs ½
  });

  it('makes a slanting line of a staircase', () => {
    const stairs = traceEdge(...grid('#...', '##..', '###.', '####'))[0];
    // the long side from the top cell to the right one is one straight piece of slope 1
    const slanting = stairs.filter(([c, r], i) => {
      const next = stairs[i + 1];
      return next && Math.abs(next[0] - c) > 1 && next[0] - c === next[1] - r;
    });
    expect(slanting).toHaveLength(1);
  });

  it('gives a hole a ring of its own, the other way round', () => {
    const rings = traceEdge(...grid('#####', '#...#', '#...#', '#####'));
    expect(rings).toHaveLength(2);
    expect(rings.map((r) => Math.sign(shoelace(r))).sort()).toEqual([-1, 1]);
  });

  it('keeps two blocks that touch at a corner apart', () => {
    expect(traceEdge(...grid('#.', '.#'))).toHaveLength(2);
  });

  it('is empty without cells, and throws on a grid of another size', () => {
    expect(traceEdge([0, 0], 2, 1)).toEqual([]);
    expect(() => traceEdge([1], 2, 1)).toThrow('got 1 cells, expected 2 × 1');
  });

  it('closes every ring and keeps to cell sides, whatever the grid', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.array(fc.constantFrom(0, 1), { minLength: 1, maxLength: 81 }),
        (nx, raw) => {
          const ny = Math.max(1, Math.floor(raw.length / nx));
          const cells = Array.from({ length: nx * ny }, (_, i) => raw[i] ?? 0);
          const rings = traceEdge(cells, nx, ny);
          expect(rings.length > 0).toBe(cells.includes(1));
          for (const ring of rings) {
            expect(ring[0]).toEqual(ring.at(-1));
            expect(ring.length).toBeGreaterThan(3);
            // a middle of a side has one whole and one half coordinate
            for (const [c, r] of ring)
              expect(Number.isInteger(c) !== Number.isInteger(r)).toBe(true);
          }
        },
      ),
      { seed: 1, numRuns: 300 },
    );
  });
});

/** Signed area, positive clockwise with rows counted downwards. */
function shoelace(ring: readonly (readonly [number, number])[]): number {
  let sum = 0;
  for (let i = 1; i < ring.length; i++)
    sum += ring[i - 1][0] * ring[i][1] - ring[i][0] * ring[i - 1][1];
  return sum / 2;
}
