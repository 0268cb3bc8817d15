/** Lake folders for tests: good files, some replaced. */

import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { formatFinding } from '../../shared/findings.ts';
import type { LngLat } from '../../shared/survey.ts';
import { readLake } from '../../src/read/lake.ts';

export const CLASSES = DEFAULT_ANALYSIS.substrates;
export const SQUARE: LngLat[] = [
  [9.4, 47.6],
  [9.41, 47.6],
  [9.41, 47.61],
  [9.4, 47.61],
  [9.4, 47.6],
];

export const polygon = (...rings: LngLat[][]) => ({ type: 'Polygon', coordinates: rings });
export const feature = (geometry: unknown, properties: unknown = {}) => ({
  type: 'Feature',
  properties,
  geometry,
});
export const collection = (...features: unknown[]) => ({ type: 'FeatureCollection', features });
export const sand = (properties: object = {}) =>
  feature(polygon(SQUARE), { substrate: 'sand', ...properties });

export const OUTLINE = collection(feature(polygon(SQUARE)));
export const SUBSTRATE = collection(sand());
export const DEPTH = collection(
  feature({ type: 'LineString', coordinates: SQUARE.slice(0, 3) }, { depth_m: 3 }),
);

/** Reads a lake of good files with some replaced: by an object, a text, or bytes; null = not in the folder. */
export async function read(
  changed: Record<string, unknown> = {},
  classes: string[] | null = CLASSES,
) {
  const all: Record<string, unknown> = {
    'outline.geojson': OUTLINE,
    'substrate.geojson': SUBSTRATE,
    'depth.geojson': DEPTH,
    ...changed,
  };
  const files = new Map<string, Uint8Array>();
  for (const [name, content] of Object.entries(all)) {
    if (content === null) continue;
    const bytes = content instanceof Uint8Array;
    const text = typeof content === 'string' ? content : JSON.stringify(content);
    files.set(name, bytes ? content : new TextEncoder().encode(text));
  }
  const { lake, findings } = await readLake(files, classes);
  return { lake, told: findings.map(formatFinding), findings };
}
