/** Areas as records for the map's source: their shapes and names, handles of the chosen one, what is being drawn. */

import type { LngLat, LngLatPolygon } from '../../../../shared/survey.ts';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import type { ChosenArea, Desk } from '../../state/area-desk.ts';
import type { PlacedArea } from '../../state/area-edits.ts';
import {
  boundsOf,
  lineString,
  point,
  polygon,
  type Shape,
  type Shapes,
  shapes,
} from '../features/geo.ts';
import { cornersOf } from './corners.ts';

/** With more corners than these no middles are offered, which would lie on them. */
const MOST_WITH_MIDDLES = 60;

export interface Proposed {
  name: string;
  polygons: readonly LngLatPolygon[];
}

/** `kind`: `area`, `keep-out`, `proposal`, `name`, `corner`, `middle`, `draft` */
export function areaShapes(
  candidates: readonly PlacedArea[],
  keptOut: readonly PlacedArea[],
  proposed: readonly Proposed[],
  { chosen, corner, drawing, moving }: Pick<Desk, 'chosen' | 'corner' | 'drawing' | 'moving'>,
): Shapes {
  const held = (file: ChosenArea['file'], area: PlacedArea): LngLatPolygon[] =>
    isChosen(chosen, file, area) && moving !== null ? moving : area.polygons;
  const drawn = (file: ChosenArea['file'], kind: string, areas: readonly PlacedArea[]): Shape[] =>
    areas.flatMap((area) =>
      outlined(kind, area.name, held(file, area), isChosen(chosen, file, area)),
    );
  const inHand = [
    ...candidates.filter((area) => isChosen(chosen, TREATMENTS_FILE, area)),
    ...keptOut.filter((area) => isChosen(chosen, KEEP_OUT_FILE, area)),
  ];
  return shapes([
    ...drawn(KEEP_OUT_FILE, 'keep-out', keptOut),
    ...proposed.flatMap(({ name, polygons }) => outlined('proposal', name, polygons, false)),
    ...drawn(TREATMENTS_FILE, 'area', candidates),
    ...inHand.flatMap((area) => handles(moving ?? area.polygons, corner)),
    ...(drawing === null ? [] : draft(drawing)),
  ]);
}

function isChosen(chosen: ChosenArea | null, file: string, { place }: PlacedArea): boolean {
  return chosen !== null && chosen.file === file && chosen.place === place;
}

function outlined(
  kind: string,
  name: string,
  polygons: readonly LngLatPolygon[],
  chosen: boolean,
): Shape[] {
  const parts = polygons.map((rings) => polygon(rings, { kind, chosen }));
  const at = nameAt(polygons);
  return at === null ? parts : [...parts, point(at, { kind: 'name', name })];
}

/** Above the middle of the part that reaches farthest north, where names of the bed's own marks are rare. */
function nameAt(polygons: readonly LngLatPolygon[]): LngLat | null {
  const box = boundsOf(polygons.flatMap((rings) => rings[0] ?? []));
  return box && [(box.west + box.east) / 2, (box.south + box.north) / 2];
}

function handles(polygons: readonly LngLatPolygon[], marked: Desk['corner']): Shape[] {
  const corners = cornersOf(polygons);
  const middles = corners.length > MOST_WITH_MIDDLES ? [] : corners;
  return [
    ...middles.map(({ middle }) => point(middle, { kind: 'middle' })),
    ...corners.map(({ path, at }) =>
      point(at, { kind: 'corner', marked: marked !== null && path.join() === marked.join() }),
    ),
  ];
}

function draft({ corners, pointer }: NonNullable<Desk['drawing']>): Shape[] {
  const line = pointer === null ? [...corners] : [...corners, pointer];
  const closed = line.length > 2 ? [...line, line[0]] : line;
  return [
    ...(closed.length > 1 ? [lineString(closed, { kind: 'draft' })] : []),
    ...corners.map((at, i) => point(at, { kind: 'corner', marked: i === 0 })),
  ];
}
