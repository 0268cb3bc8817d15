/** Places on the lake that are given beside the survey: polygons of any GeoJSON file. */

import { errorAt, type Finding } from '../../shared/findings.ts';
import { pairsOf, positionsFrom } from '../../shared/positions.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';
import { polygonFault } from './geo-rings.ts';
import { readGeoJson } from './geojson.ts';
import { readPolygons } from './lake.ts';

/** Each polygon with the name of its feature. @param table what the file is called in findings. Never throws. */
export function readPlaces(
  table: string,
  bytes: Uint8Array,
): { polygons: LngLatPolygon[]; names: (string | null)[]; findings: Finding[] } {
  const { features, findings } = readGeoJson(table, bytes);
  const places = features.flatMap((f) =>
    readPolygons(table, f, findings).map((rings) => ({
      polygon: rings.map(pairsOf),
      name: nameOf(f.properties.name),
    })),
  );
  const polygons = places.map((p) => p.polygon);
  if (polygons.length === 0 && !findings.some((f) => f.severity === 'error'))
    findings.push(errorAt({ table }, 'no-polygon', 'no polygon (places as polygons expected)'));
  return { polygons, names: places.map((p) => p.name), findings };
}

const nameOf = (value: unknown): string | null =>
  typeof value === 'string' && value.trim() !== '' ? value.trim() : null;

/** Why an area that is drawn could not be read again from a file, in words; null where it can. */
export function areaFault(polygons: readonly LngLatPolygon[]): string | null {
  for (const rings of polygons) {
    const fault = polygonFault(rings.map(positionsFrom));
    if (fault !== null) return fault;
  }
  return null;
}
