/** Observers are told apart by shape, the same in every figure, by their place in src/present/observers.ts. */

import type { Transect } from '../../../shared/survey.ts';
import { observerPlaces } from '../../present/observers.ts';

export type MarkShape =
  | 'circle'
  | 'square'
  | 'triangle'
  | 'diamond'
  | 'kite'
  | 'hexagon'
  | 'star'
  | 'plus';

export const SHAPES: readonly MarkShape[] = [
  'circle',
  'square',
  'triangle',
  'diamond',
  'hexagon',
  'kite',
  'plus',
  'star',
];

/** Shape of each observer of a survey. */
export function observerShapes(
  transects: readonly Pick<Transect, 'primary' | 'secondary'>[],
): Map<string, MarkShape> {
  return new Map(
    [...observerPlaces(transects)].map(([name, place]) => [name, observerShape(place)]),
  );
}

/** With more observers than shapes the shapes come round again; names always stand beside them. */
export function observerShape(place: number): MarkShape {
  return SHAPES[place % SHAPES.length] ?? 'circle';
}

/** Corners of each shape as angle (clockwise from the top, in turns) and radius, so that areas look alike. */
const CORNERS: Record<Exclude<MarkShape, 'circle'>, readonly (readonly [number, number])[]> = {
  square: turns([0.125, 0.375, 0.625, 0.875], 1.25),
  triangle: turns([0, 1 / 3, 2 / 3], 1.5),
  diamond: [
    [0, 1.45],
    [0.25, 1.05],
    [0.5, 1.45],
    [0.75, 1.05],
  ],
  hexagon: turns(
    [0, 1, 2, 3, 4, 5].map((k) => k / 6),
    1.12,
  ),
  kite: turns([1 / 6, 0.5, 5 / 6], 1.5),
  plus: [
    [-0.06, 1.3],
    [0.06, 1.3],
    [0.125, 0.68],
    [0.19, 1.3],
    [0.31, 1.3],
    [0.375, 0.68],
    [0.44, 1.3],
    [0.56, 1.3],
    [0.625, 0.68],
    [0.69, 1.3],
    [0.81, 1.3],
    [0.875, 0.68],
  ],
  star: Array.from({ length: 10 }, (_, k) => [k / 10, k % 2 === 0 ? 1.55 : 0.72] as const),
};

function turns(angles: readonly number[], radius: number): (readonly [number, number])[] {
  return angles.map((angle) => [angle, radius] as const);
}

/** SVG path around the origin of about the area of a circle of that radius. */
export function shapePath(shape: MarkShape, radiusPx: number): string {
  const r = radiusPx.toFixed(2);
  if (shape === 'circle')
    return `M${-radiusPx.toFixed(2)},0a${r},${r} 0 1,0 ${(2 * radiusPx).toFixed(2)},0a${r},${r} 0 1,0 ${(-2 * radiusPx).toFixed(2)},0Z`;
  const points = CORNERS[shape].map(([turn, reach]) => {
    const angle = turn * 2 * Math.PI;
    const x = Math.sin(angle) * reach * radiusPx;
    const y = -Math.cos(angle) * reach * radiusPx;
    return `${x.toFixed(2)},${y.toFixed(2)}`;
  });
  return `M${points.join('L')}Z`;
}
