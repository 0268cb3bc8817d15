import { expect, it } from 'vitest';
import { horizontalLength } from '../../shared/rope.ts';

it.each([
  // by hand: √896, √875, √800; change of depth of 30 m of rope, metres on the map
  [2, 29.9332590942],
  [5, 29.5803989155],
  [10, 28.2842712475],
])('30 m of rope that sink by %d m span %d m on the map', (depthChangeM, expected) => {
  expect(horizontalLength(30, depthChangeM).horizontalM).toBeCloseTo(expected, 10); // printed to 1e-10
});

it.each([
  // by hand, with tables of the cosine to 12 digits: 30 m × cos(slope)
  [5, 29.8858409428],
  [10, 29.5442325904],
  [20, 28.1907786236],
  [30, 25.9807621135],
])('30 m of rope at %d° span %d m on the map', (slopeDeg, expected) => {
  const depthChangeM = 30 * Math.sin((slopeDeg * Math.PI) / 180);
  expect(horizontalLength(30, depthChangeM).horizontalM).toBeCloseTo(expected, 10);
});
