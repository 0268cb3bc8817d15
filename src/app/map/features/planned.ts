/** Planned transects for the map: a broken ring where each begins, a broken line to its end where that is known. */

import type { PlannedPlace } from '../../../present/planned.ts';
import { lineString, point, type Shape } from './geo.ts';

export function plannedShapes(places: readonly PlannedPlace[]): Shape[] {
  return places.flatMap(({ name, start, end }) => [
    ...(end === null ? [] : [lineString([start, end], { kind: 'planned-line', name })]),
    point(start, { kind: 'planned', name }),
  ]);
}
