/** What page and worker agree on about drawn areas. */

import type { AreaNumbers, AreaRequest, AreasFile, AreasHeld } from '../../shared/areas.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';

export interface DrawnArea {
  name: string;
  polygons: LngLatPolygon[];
}

/** A made thing, or why there is none, in words. */
export type Made<T> = ({ ok: true } & T) | { ok: false; why: string };

/** One area made of others. */
export type Reshape =
  | { by: 'width'; area: LngLatPolygon[]; widthM: number }
  | { by: 'join' | 'cut'; area: LngLatPolygon[]; other: LngLatPolygon[] };

/** Answered from the last estimate. */
export interface AreaWorker {
  /** of one area, quickly: asked again and again while it is drawn or moved */
  measureArea(
    polygons: LngLatPolygon[],
    layerM: number | null,
  ): Promise<Made<{ numbers: AreaNumbers }>>;
  /** of all areas beside one another, with what is left outside of them */
  holdAreas(areas: DrawnArea[], layerM: number | null): Promise<Made<{ held: AreasHeld }>>;
  reshape(change: Reshape): Promise<Made<{ polygons: LngLatPolygon[] }>>;
  /** files for plotters, for a GIS and to print, by name; null where areas have no numbers */
  areaFiles(areas: DrawnArea[], layerM: number | null): Promise<Map<string, string> | null>;
  /** a choice of areas for a budget, from files; keep-out.geojson is kept out of */
  proposeAreas(
    files: Map<string, Uint8Array>,
    name: string,
    request: AreaRequest,
    progress: (step: string, share: number) => void,
  ): Promise<Made<{ areas: AreasFile }>>;
}
