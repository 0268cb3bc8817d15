/** An asker as import has it, and the demo lake as other people would hand it over. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import type {
  Answer,
  Ask,
  ImportedRow,
  ImportedTables,
  Question,
  RawFeature,
  RawGeometry,
  RawLayer,
  RawValue,
} from '../../../shared/importing.ts';

export const DEMO = join(import.meta.dirname, '../../../demo-lake');

/** Answers by identifier, else the proposal; keeps what was asked. */
export function asker(answers: Record<string, Answer> = {}): { ask: Ask; asked: Question[] } {
  const asked: Question[] = [];
  const ask = ((question: Question) => {
    asked.push(question);
    return answers[question.id] ?? question.proposal;
  }) as Ask;
  return { ask, asked };
}

export function demoBytes(name: string): Uint8Array {
  return new Uint8Array(readFileSync(join(DEMO, name)));
}

export function demoTables(): ImportedTables {
  const rows = (name: string): ImportedRow[] =>
    Papa.parse<Record<string, string>>(readFileSync(join(DEMO, name), 'utf8'), {
      header: true,
      skipEmptyLines: true,
    }).data.map((cells, i) => ({ cells, place: `${name} row ${i + 2}` }));
  return {
    transects: rows('transects.csv'),
    habitat: rows('habitat.csv'),
    detections: rows('detections.csv'),
    planted_shells: [],
  };
}

/** A map of the demo lake as a layer; `change` makes other properties of its own. */
export function demoLayer(
  name: string,
  change: (properties: Record<string, RawValue>) => Record<string, RawValue> = (p) => p,
): RawLayer {
  const { features } = JSON.parse(readFileSync(join(DEMO, name), 'utf8')) as {
    features: { geometry: RawGeometry; properties: Record<string, RawValue> }[];
  };
  return layerOf(features.map((f) => [f.geometry, change(f.properties)]));
}

export function layerOf(
  features: [RawGeometry, Record<string, RawValue>][],
  more: Partial<RawLayer> = {},
): RawLayer {
  return {
    file: 'given.shp',
    layer: null,
    from: 'map',
    crs: { kind: 'epsg', code: 4326 },
    features: features.map(
      ([geometry, properties], i): RawFeature => ({ geometry, properties, row: i + 1 }),
    ),
    remarks: [],
    ...more,
  };
}
