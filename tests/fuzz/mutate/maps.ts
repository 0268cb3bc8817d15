/** Mutations of the GeoJSON maps: single vertices, rings, features and the values in them. */

import type { Random } from '../../../models/numbers/random.ts';
import {
  type Files,
  type Mutation,
  NUMBERS,
  one,
  oneFile,
  setText,
  slipped,
  textOf,
  WORDS,
} from './draw.ts';

type Position = unknown[];
interface Feature {
  type: unknown;
  properties: Record<string, unknown> | null;
  geometry: { type: unknown; coordinates: unknown } | null;
}
interface Collection {
  features: Feature[];
}

/** Edits a map that can be read; null for one that an earlier mutation spoilt. */
function change(
  random: Random,
  files: Files,
  edit: (map: Collection) => string | null,
): string | null {
  const name = oneFile(random, files, '.geojson');
  if (name === null) return null;
  let map: unknown;
  try {
    map = JSON.parse(textOf(files, name));
  } catch {
    return null;
  }
  if (!isCollection(map) || map.features.length === 0) return null;
  const done = edit(map);
  if (done === null) return null;
  setText(files, name, JSON.stringify(map));
  return `${name} ${done}`;
}

function isCollection(map: unknown): map is Collection {
  return (
    typeof map === 'object' && map !== null && Array.isArray((map as Partial<Collection>).features)
  );
}

/** Lists of positions of a geometry, whatever its depth. */
function linesOf(coordinates: unknown): Position[][] {
  if (!Array.isArray(coordinates)) return [];
  if (Array.isArray(coordinates[0]) && typeof coordinates[0][0] === 'number') return [coordinates];
  return coordinates.flatMap(linesOf);
}

const vertex =
  (value: (random: Random, p: Position) => Position): Mutation =>
  (random, files) =>
    change(random, files, (map) => {
      const f = random.integer(map.features.length);
      const lines = linesOf(map.features[f]?.geometry?.coordinates);
      if (lines.length === 0) return null;
      const line = one(random, lines);
      const at = random.integer(line.length);
      const now = line[at];
      if (now === undefined) return null;
      const next = value(random, now);
      line[at] = next;
      return `feature ${f + 1}: vertex ${at + 1} at ${JSON.stringify(next).slice(0, 60)}`;
    });

const slip = (random: Random, p: Position): Position => {
  const next = [...p];
  const axis = random.integer(2);
  next[axis] = slipped(random, Number(p[axis]));
  return next;
};

const ring: Mutation = (random, files) =>
  change(random, files, (map) => {
    const f = random.integer(map.features.length);
    const geometry = map.features[f]?.geometry;
    const lines = linesOf(geometry?.coordinates);
    if (geometry == null || lines.length === 0) return null;
    const line = one(random, lines);
    const how = random.integer(9);
    const half = Math.floor(line.length / 2);
    if (how === 0) line.reverse();
    else if (how === 1) line.splice(0, line.length, ...line.filter((_, i) => i % 7 === 0));
    else if (how === 2) line.push(...line.slice(0, -1).reverse());
    else if (how === 3) line.splice(half, 0, ...line.slice(0, half).reverse());
    else if (how === 4) [line[1], line[half]] = [line[half] ?? [], line[1] ?? []];
    else if (how === 5) line.pop();
    else if (how === 6) line.splice(0, line.length, ...random.shuffle(line));
    else if (how === 7) line.splice(0, line.length, ...line.map((p) => [p[1], p[0]]));
    else line.splice(0, line.length, ...line.flatMap((p) => [p, p, p]));
    const what = [
      'turned round',
      'thinned',
      'retraced',
      'half retraced',
      'bow tie',
      'last vertex lost',
      'shuffled',
      'axes exchanged',
      'every vertex three times',
    ];
    return `feature ${f + 1}: ${what[how]}`;
  });

const features: Mutation = (random, files) =>
  change(random, files, (map) => {
    const f = random.integer(map.features.length);
    const feature = map.features[f];
    if (feature === undefined) return null;
    const how = random.integer(9);
    if (how === 0) map.features.splice(f, 1);
    else if (how === 1) map.features.splice(0, map.features.length);
    else if (how === 2) for (let k = 0; k < 40; k++) map.features.push(structuredClone(feature));
    else if (how === 3) map.features.push(structuredClone(feature));
    else if (how === 4) feature.geometry = null;
    else if (how === 5) feature.properties = null;
    else if (how === 6 && feature.geometry !== null) feature.geometry.coordinates = nested(random);
    else if (how === 7 && feature.geometry !== null)
      feature.geometry.type = one(random, [
        'Point',
        'MultiPolygon',
        'LineString',
        'Polygon',
        'GeometryCollection',
        null,
        {},
        7,
      ]);
    else map.features.reverse();
    const what = [
      'dropped',
      'all dropped',
      'forty times more',
      'doubled',
      'no geometry',
      'no properties',
      'other coordinates',
      'other type',
      'order turned round',
    ];
    return `feature ${f + 1}: ${what[how]}`;
  });

function nested(random: Random): unknown {
  const wrong = [
    null,
    [],
    [[]],
    [[[]]],
    {},
    'x',
    7,
    [[null, null]],
    [['1', '2']],
    [
      [
        [1, 2],
        [3, 4],
        [1, 2],
      ],
    ],
  ];
  if (random.integer(3) > 0) return one(random, wrong);
  let deep: unknown = [];
  for (let k = 0; k < one(random, [10, 3000]); k++) deep = [deep];
  return deep;
}

const property: Mutation = (random, files) =>
  change(random, files, (map) => {
    const f = random.integer(map.features.length);
    const properties = map.features[f]?.properties;
    const keys = Object.keys(properties ?? {});
    if (properties == null || keys.length === 0) return null;
    const key = one(random, keys);
    const number = Number(one(random, NUMBERS));
    const values = [
      number,
      String(number),
      one(random, WORDS),
      null,
      {},
      [],
      [1],
      true,
      { a: { b: 1 } },
    ];
    const value = random.integer(3) === 0 ? number : one(random, values);
    properties[key] = value;
    return `feature ${f + 1}, ${key}: ${(JSON.stringify(value) ?? '').slice(0, 60)}`;
  });

/** The whole map moved, scaled or moved far away. */
const moved: Mutation = (random, files) =>
  change(random, files, (map) => {
    const [scale, east, north] = one(random, [
      [1, 0.01, 0],
      [1, 0, 1],
      [1, 180, 0],
      [1, -90, -40],
      [1, 0, 40],
      [0, 0, 0],
      [1e-7, 0, 0],
      [1e5, 0, 0],
      [-1, 0, 0],
    ] as const);
    for (const feature of map.features) {
      for (const line of linesOf(feature.geometry?.coordinates)) {
        for (const p of line) {
          p[0] = Number(p[0]) * scale + east;
          p[1] = Number(p[1]) * scale + north;
        }
      }
    }
    return `all of it times ${scale}, ${east}° and ${north}° on`;
  });

export const MAP_MUTATIONS: Record<string, Mutation> = {
  'vertex: slip': vertex(slip),
  'vertex: far': vertex((random) =>
    one(random, [
      [0, 0],
      [180, 90],
      [-180, -90],
      [-93, 4.5],
      [-9.3, 45],
      [1e308, 0],
      [null, null],
      [],
      [1],
    ]),
  ),
  'vertex: near': vertex((random, p) => p.map((v) => Number(v) + 0.02 * random.normal())),
  ring,
  features,
  property,
  'map moved': moved,
};
