/** Names on the map of a plan: all where there is room, and where dives lie close none on another name. Places by hand. */

import { expect, it } from 'vitest';
import type { XY } from '../../shared/survey.ts';
import { planMap } from '../../src/publish/figures/plan-map.ts';

const shownAt = (places: readonly XY[]): { name: string; x: number; y: number }[] => {
  const { text } = planMap({
    title: 'Plan',
    described: '',
    width: 960,
    height: 760,
    shore: [],
    noDive: [],
    dived: [],
    planned: places.map(([x, y], i) => ({ name: `P${10 + i}`, from: [x, y], to: [x + 12, y] })),
    scale: { lengthM: 100, label: '100 m' },
    scalePx: 100,
    northDeg: 0,
    words: { planned: 'planned', dived: 'dived', noDive: 'no dive', north: 'North' },
  });
  const names = text.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>(P\d+)</g);
  return [...names].map(([, x, y, name]) => ({ name, x: Number(x), y: Number(y) }));
};

it('names every dive where they lie apart', () => {
  expect(
    shownAt([
      [100, 100],
      [300, 100],
      [100, 300],
    ]).map(({ name }) => name),
  ).toEqual(['P10', 'P11', 'P12']);
});

it('lays no name on another where dives lie 6 px apart', () => {
  const shown = shownAt(Array.from({ length: 40 }, (_, i): XY => [200 + 6 * i, 200]));
  expect(shown.length).toBeGreaterThan(0);
  // three letters of 12 px in a common sans-serif are 21 px wide, a line is 12 px high
  for (const [i, a] of shown.entries())
    for (const b of shown.slice(i + 1))
      expect(Math.abs(a.x - b.x) >= 21 || Math.abs(a.y - b.y) >= 12, `${a.name} ${b.name}`).toBe(
        true,
      );
});
