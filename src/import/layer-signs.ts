/** What a layer looks like: its shapes, the names and values of its columns, how it is called. From these its part in the survey is proposed. */

import type { RawFeature, RawLayer, RawRaster } from '../../shared/importing.ts';

export type Shapes = 'areas' | 'lines' | 'points' | 'raster';

export interface Signs {
  /** says the same of next year's file, whatever that is called */
  key: string;
  /** file and layer, for people */
  label: string;
  shapes: Shapes;
  count: number;
  /** lower-case words of file and layer names */
  words: ReadonlySet<string>;
  fields: Field[];
  /** share of the bounding box of all areas and lines, in its own units; 0 for points and rasters */
  extent: number;
  from: RawLayer['from'];
}

export interface Field {
  name: string;
  /** share of the features whose value is a number, or text that begins with one */
  numbers: number;
  /** different values; counted up to MOST_VALUES */
  values: Set<string>;
}

/** A column of more different values than this holds no classes of the bed. */
export const MOST_VALUES = 60;
/** A key stays readable in import.json. */
const LONGEST_KEY = 120;

export function layerSigns(layer: RawLayer): Omit<Signs, 'key'> {
  const { file, layer: name, features, from } = layer;
  return {
    label: name === null ? file : `${file}, ${name}`,
    shapes: shapesOf(features),
    count: features.length,
    words: wordsOf(file, name),
    fields: fieldsOf(features),
    extent: extentOf(features),
    from,
  };
}

export function rasterSigns({ file, width, height }: RawRaster): Omit<Signs, 'key'> {
  return {
    label: file,
    shapes: 'raster',
    count: width * height,
    words: wordsOf(file, null),
    fields: [],
    extent: 0,
    from: 'map',
  };
}

/** Keys by shapes and columns; where two are alike, by words of their names as well, and then numbered. */
export function withKeys(signs: readonly Omit<Signs, 'key'>[]): Signs[] {
  const plainKeys = signs.map(keyOf);
  const named = signs.map((sign, i) =>
    plainKeys.filter((key) => key === plainKeys[i]).length === 1
      ? plainKeys[i]
      : `${plainKeys[i]} ${[...sign.words].sort().join(' ')}`.trim(),
  );
  const seen = new Map<string, number>();
  return signs.map((sign, i) => {
    const n = (seen.get(named[i]) ?? 0) + 1;
    seen.set(named[i], n);
    return { ...sign, key: n === 1 ? named[i] : `${named[i]} ${n}` };
  });
}

/** A lake is one area and treatment areas are several, also where both have a name and nothing else. */
function keyOf({ shapes, count, fields, from }: Omit<Signs, 'key'>): string {
  const kind = shapes === 'areas' && count === 1 ? 'area' : shapes;
  const names = fields.map(({ name }) => name.toLowerCase()).sort();
  const origin = from === 'map' ? kind : `${from} ${kind}`;
  return (names.length === 0 ? origin : `${origin}: ${names.join(', ')}`).slice(0, LONGEST_KEY);
}

function shapesOf(features: readonly RawFeature[]): Shapes {
  const has = (pattern: RegExp): boolean =>
    features.some(({ geometry }) => pattern.test(geometry.type));
  if (has(/Polygon$/)) return 'areas';
  return has(/LineString$/) ? 'lines' : 'points';
}

/** Numbers of years and versions are no words. */
function wordsOf(file: string, layer: string | null): Set<string> {
  const text = `${file.replace(/\.[a-z0-9]{1,8}$/i, '')} ${layer ?? ''}`;
  const parts = text
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}]+/u);
  return new Set(parts.filter((part) => part.length > 1));
}

function fieldsOf(features: readonly RawFeature[]): Field[] {
  const fields = new Map<string, { numbers: number; given: number; values: Set<string> }>();
  for (const { properties } of features)
    for (const [name, value] of Object.entries(properties)) {
      const field = fields.get(name) ?? { numbers: 0, given: 0, values: new Set<string>() };
      fields.set(name, field);
      if (value === null || String(value).trim() === '') continue;
      field.given += 1;
      if (typeof value === 'number' || /^\s*[<~]?[+-]?\d/.test(value)) field.numbers += 1;
      if (field.values.size <= MOST_VALUES) field.values.add(String(value).trim().toLowerCase());
    }
  return [...fields].map(([name, { numbers, given, values }]) => ({
    name,
    numbers: given === 0 ? 0 : numbers / given,
    values,
  }));
}

function extentOf(features: readonly RawFeature[]): number {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  const visit = (coordinates: unknown): void => {
    const list = coordinates as unknown[];
    if (Array.isArray(list[0])) {
      for (const inner of list) visit(inner);
      return;
    }
    const [x, y] = list as number[];
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  };
  for (const { geometry } of features)
    if (!/Point$/.test(geometry.type)) visit(geometry.coordinates);
  return east > west ? (east - west) * (north - south) : 0;
}
