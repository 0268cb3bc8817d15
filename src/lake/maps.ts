/** The polygons of the lake's maps in its plane, prepared once: its bed and each treatment area are cut from them. */

import Flatbush from 'flatbush';
import { positionsFrom } from '../../shared/positions.ts';
import type { Lake, MapHabitat, Plane, SubstratePatch, XYPolygon } from '../../shared/survey.ts';
import { around, type Box, flatInPlane, type PlanePolygon, planePolygon } from './rings.ts';

/** The layers that polygons belong to; bed is where the first `required` of them have one. */
export const OUTLINE = 0;
export const WITHIN = 1;
export const PATCH = 2;

/** A polygon of one of the maps. */
export interface Shape {
  layer: number;
  /** number in the file, from 1 */
  feature: number;
  polygon: PlanePolygon;
  patch: SubstratePatch | null;
  /** index of the patch's habitat; 0 without a patch */
  habitat: number;
}

export interface LakeMaps {
  /** polygons of the outline, then those of the patches, in the order in which they count where they overlap */
  shapes: Shape[];
  habitats: MapHabitat[];
  /** around the outline */
  box: Box | null;
  /** the file that depths come from */
  depthTable: string;
  /** places in `shapes` of what reaches a box, in their order */
  within(box: Box): number[];
}

/** Null when the lake has no outline or no substrate map. `outline` is the lake's in the plane. */
export function lakeMaps(
  lake: Lake,
  outline: readonly XYPolygon[] | null,
  plane: Plane,
): LakeMaps | null {
  if (outline === null || lake.substrate === null) return null;
  const { list, indexOf } = listHabitats(lake.substrate);
  const shapes = [
    ...ownShapes(OUTLINE, outline),
    ...lake.substrate.flatMap((patch) =>
      patch.polygons.map((rings) => ({
        layer: PATCH,
        feature: patch.feature,
        polygon: planePolygon(rings.map((ring) => flatInPlane(ring, plane))),
        patch,
        habitat: indexOf(patch),
      })),
    ),
  ];
  let box: Box | null = null;
  for (const { layer, polygon } of shapes)
    if (layer === OUTLINE && polygon.box !== null) box = around(box, polygon.box);
  const depthTable = lake.depth?.kind === 'raster' ? 'depth.tif' : 'depth.geojson';
  return { shapes, habitats: list, box, depthTable, within: searcher(shapes) };
}

/** The same lake as if all of its bed were one patch: what is cut from it is the water, mapped or not. */
export function waterMaps(maps: LakeMaps): LakeMaps {
  const outline = maps.shapes.filter((s) => s.layer === OUTLINE);
  const shapes = [...outline, ...outline.map((s) => ({ ...s, layer: PATCH }))];
  return { ...maps, shapes, within: searcher(shapes) };
}

/** Polygons of the plane that are no patches. */
export function ownShapes(layer: number, polygons: readonly XYPolygon[]): Shape[] {
  return polygons.map((rings, k) => ({
    layer,
    feature: k + 1,
    polygon: planePolygon(rings.map(positionsFrom)),
    patch: null,
    habitat: 0,
  }));
}

function searcher(shapes: readonly Shape[]): LakeMaps['within'] {
  const places = [...shapes.keys()].filter((k) => shapes[k].polygon.box !== null);
  if (places.length === 0) return () => [];
  const index = new Flatbush(places.length);
  for (const k of places) {
    const { minX, minY, maxX, maxY } = shapes[k].polygon.box as Box;
    index.add(minX, minY, maxX, maxY);
  }
  index.finish();
  return ({ minX, minY, maxX, maxY }) =>
    index
      .search(minX, minY, maxX, maxY)
      .map((i) => places[i])
      .sort((a, b) => a - b);
}

/** The habitats of the map, each once. */
function listHabitats(patches: readonly SubstratePatch[]) {
  const list: MapHabitat[] = [];
  const places = new Map<string, number>();
  const key = (h: MapHabitat) => JSON.stringify([h.substrate, h.plantCover]);
  for (const { substrate, plantCover } of patches) {
    const habitat = { substrate, plantCover };
    if (places.has(key(habitat))) continue;
    places.set(key(habitat), list.length);
    list.push(habitat);
  }
  return { list, indexOf: (h: MapHabitat) => places.get(key(h))! };
}
