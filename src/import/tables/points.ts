/** Tables of soundings, samples, shoreline points or waypoints → layers of points, as maps bring them. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, Option, RawFeature, RawLayer, RawValue } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, plain, quoted } from '../../../shared/words.ts';
import { type Block, type Column, cellAt, sourceOf } from './blocks.ts';
import { isBlank } from './codes.ts';
import { type Alike, askColumns, OTHERWISE } from './columns.ts';
import { readPair } from './coordinates.ts';
import { LEAVE_OUT, type Matched } from './gather.ts';
import { nameFit } from './names.ts';
import { readNumber, type Unit } from './numbers.ts';
import { isZone, zoneOf } from './utm-zone.ts';
import { type Axis, askWest, coordinateIn } from './waypoints.ts';

/** WGS 84, what handhelds show and what a header that says latitude is taken for. */
const WGS84 = 4326;
/** Of rows that are refused so many are named. */
const MOST_TOLD = 20;
/** So large a share of one unit behind the numbers is the unit of the column. */
const NEARLY_ALL = 0.9;

/** What a column without a header of its own is called. */
const NAMED = new Set(['depth', 'substrate', 'name']);

const OPTIONS: Option[] = [
  { value: 'lat', label: 'latitude, or north (y)' },
  { value: 'lon', label: 'longitude, or east (x)' },
  { value: 'pair', label: 'both coordinates' },
  { value: 'depth', label: 'depth or height' },
  { value: 'substrate', label: 'substrate' },
  { value: 'name', label: 'name of the point' },
  ...OTHERWISE,
];

export function pointLayers(
  group: Alike,
  id: string,
  ask: Ask,
): { layers: RawLayer[]; findings: Finding[] } {
  const sure = isPlain(group);
  const matched = sure
    ? group.tables.map((table): Matched => ({ table, meaning: meaningBy(group) }))
    : askColumns(headerless(group), { id, row: 'a point on a map' }, OPTIONS, false, null, ask);
  const layers: RawLayer[] = [];
  const findings: Finding[] = [];
  for (const one of matched) {
    const { layer, refused } = layerOf(one, ask);
    for (const finding of refused) findings.push(finding);
    if (layer !== null) layers.push(layer);
  }
  return { layers, findings };
}

/** Its headers leave no second reading: nothing is asked. */
export function isPlain({ matches }: Alike): boolean {
  return matches.length > 0 && matches.every(({ fit }) => fit > 1);
}

function meaningBy({ matches }: Alike): { [key: string]: string } {
  return Object.fromEntries(matches.map(({ column, field }) => [column.key, field]));
}

/** Without a header x stands before y and y before what was measured, as in every list of that kind; it is asked. */
function headerless(group: Alike): Alike {
  const { block } = group.tables[0];
  if (block.headerRow !== null || group.matches.length > 0) return group;
  const [x, y, z] = block.columns;
  const matches = [
    { field: 'lon', column: x, fit: 0 as const },
    { field: 'lat', column: y, fit: 0 as const },
    ...(z === undefined ? [] : [{ field: 'depth', column: z, fit: 0 as const }]),
  ];
  return { ...group, matches };
}

interface Columns {
  lat: Column | null;
  lon: Column | null;
  pair: Column | null;
  kept: Column[];
}

function columnsOf({ table, meaning }: Matched): Columns {
  const { columns } = table.block;
  const by = (field: string) => columns.find(({ key }) => meaning[key] === field) ?? null;
  const places = ['lat', 'lon', 'pair', LEAVE_OUT];
  const kept = columns.filter(({ key }) => !places.includes(meaning[key]));
  return { lat: by('lat'), lon: by('lon'), pair: by('pair'), kept };
}

type Place = { x: number; y: number } | 'blank' | 'unreadable';

function layerOf(matched: Matched, ask: Ask): { layer: RawLayer | null; refused: Finding[] } {
  const { block } = matched.table;
  const columns = columnsOf(matched);
  const source = sourceOf(block.table);
  if (columns.pair === null && (columns.lat === null || columns.lon === null)) {
    const message = 'no two columns hold coordinates (latitude and longitude, or x and y expected)';
    return { layer: null, refused: [errorAt({ table: source }, 'no-coordinates', message)] };
  }
  const places = block.rows.map((row) => placeIn(row, columns, matched.table.decimalComma));
  const west = lostMinus(places, columns, source, ask);
  const kept = columns.kept.map((column) => valuesOf(matched, column));
  const names = endNames(columns.kept, kept);
  const values = names === null ? kept : [...kept, { name: 'name', of: names }];
  const features: RawFeature[] = [];
  const refused: Finding[] = [];
  places.forEach((place, i) => {
    if (place === 'blank') return;
    const { row } = block.rows[i];
    if (place === 'unreadable') {
      refused.push(unreadable(block, i, columns));
      return;
    }
    const x = west && place.x > 0 ? -place.x : place.x;
    const properties = Object.fromEntries(values.map(({ name, of }) => [name, of[i]]));
    features.push({ geometry: { type: 'Point', coordinates: [x, place.y] }, properties, row });
  });
  const blank = places.filter((place) => place === 'blank').length;
  const remarks =
    blank > 0 ? [`${formatCount(blank)} rows without coordinates were left out.`] : [];
  const inDegrees = sayDegrees(columns, features);
  if (!inDegrees && saysLatitude(columns)) remarks.push(noDegrees(columns, features));
  const zoneAt = inDegrees ? -1 : columns.kept.findIndex(({ text }) => isZone(text));
  const zone =
    zoneAt < 0
      ? null
      : zoneOf(
          columns.kept[zoneAt].text,
          kept[zoneAt].of.map((value) => String(value ?? '')),
        );
  if (zone !== null) remarks.push(zone.remark);
  const layer: RawLayer = {
    file: block.table.file,
    layer: block.table.sheet,
    from: 'table',
    crs: inDegrees ? { kind: 'epsg', code: WGS84 } : (zone?.crs ?? { kind: 'none' }),
    features,
    remarks,
  };
  return { layer, refused: shortened(refused, source) };
}

function placeIn(row: Block['rows'][number], columns: Columns, decimalComma: boolean): Place {
  if (columns.pair !== null) {
    const { text } = cellAt(row, columns.pair.at);
    if (isBlank(text)) return 'blank';
    const pair = readPair(text, decimalComma);
    return pair === null ? 'unreadable' : { x: pair.lon.degrees, y: pair.lat.degrees };
  }
  const [y, x] = (['lat', 'lon'] as const).map((axis) =>
    numberOn(row, columns[axis]!, axis, decimalComma),
  );
  if (x === null && y === null) return 'blank';
  return x === null || y === null || Number.isNaN(x) || Number.isNaN(y) ? 'unreadable' : { x, y };
}

/** Degrees or metres; null where the cell is blank, NaN where it holds no number. */
function numberOn(
  row: Block['rows'][number],
  column: Column,
  axis: Axis,
  decimalComma: boolean,
): number | null {
  const cell = cellAt(row, column.at);
  if (isBlank(cell.text)) return null;
  const degrees = coordinateIn({ cell, column, decimalComma }, axis);
  if (degrees !== null) return degrees.degrees;
  const metres = cell.kind === 'date' ? null : readNumber(cell.text, decimalComma);
  return metres === null ? Number.NaN : metres.value;
}

function isOnGlobe(x: number, y: number): boolean {
  return Math.abs(x) <= 180 && Math.abs(y) <= 90;
}

/** Only headers that say latitude and longitude say WGS 84, and only numbers that can be degrees. */
function sayDegrees(columns: Columns, features: readonly RawFeature[]): boolean {
  return (
    saysLatitude(columns) &&
    features.every(({ geometry }) => {
      if (geometry.type !== 'Point') return false;
      return isOnGlobe(geometry.coordinates[0], geometry.coordinates[1]);
    })
  );
}

function saysLatitude({ lat, lon, pair }: Columns): boolean {
  return pair !== null || (/lat/.test(lat!.key) && /lon|lng/.test(lon!.key));
}

/** Metres or feet under a header of degrees. */
function noDegrees({ lat, lon, pair }: Columns, features: readonly RawFeature[]): string {
  const names = pair === null ? [lat!, lon!] : [pair];
  const odd = features.flatMap(({ geometry }) =>
    geometry.type === 'Point' && !isOnGlobe(geometry.coordinates[0], geometry.coordinates[1])
      ? [geometry.coordinates]
      : [],
  );
  const [x, y] = odd[0];
  return `The headers ${listed(
    names.map(({ text }) => quoted(text)),
    'and',
  )} say degrees, but ${formatCount(odd.length)} of ${formatCount(features.length)} rows hold numbers such as ${plain(y)} and ${plain(x)}, which are none.`;
}

function lostMinus(
  places: readonly Place[],
  { lon, pair }: Columns,
  source: string,
  ask: Ask,
): boolean {
  const known = places.filter((place) => typeof place === 'object');
  if (!known.every(({ x, y }) => isOnGlobe(x, y))) return false;
  const unsigned = known.filter(({ x }) => x > 0).map(({ x }) => x);
  const column = (pair ?? lon)!;
  const about = [`${source}, ${quoted(column.text)}`];
  return askWest('points.longitude', unsigned, known.length - unsigned.length, about, ask);
}

/** Numbers where a cell holds one; a unit that stands behind nearly all of them goes into the name. */
function valuesOf({ table, meaning }: Matched, column: Column): { name: string; of: RawValue[] } {
  const { block, decimalComma } = table;
  const read = block.rows.map((row) => {
    const { text, kind } = cellAt(row, column.at);
    if (isBlank(text)) return { text: '', number: null };
    return {
      text,
      number: kind === 'date' || kind === 'error' ? null : readNumber(text, decimalComma),
    };
  });
  const numbers = read.flatMap(({ number }) => number ?? []);
  const unit = column.unit ?? commonUnit(numbers.map((number) => number.unit));
  const named = NAMED.has(meaning[column.key]) ? meaning[column.key] : column.text;
  const told =
    unit !== null && !named.includes(`(${unit})`) && (column.unit === null || named !== column.text)
      ? `${named} (${unit})`
      : named;
  const of = read.map(({ text, number }): RawValue => {
    if (text === '') return null;
    const plain = number !== null && (number.unit === null || number.unit === unit);
    return plain ? number.value : text;
  });
  return { name: told, of };
}

const ENDS = /^(start|end|begin|finish|shallow|deep)( end| point)?$/i;

/** `T01 start`, where the transect and which of its ends it is stand in two columns and nothing is called a name. */
function endNames(
  columns: readonly Column[],
  values: readonly { of: RawValue[] }[],
): RawValue[] | null {
  if (columns.some(({ key }) => /^(name|waypoint|wpt|wp|label)$/.test(key))) return null;
  const label = columns.findIndex((column) => nameFit(column, 'transects', 'transect') > 0);
  const end = values.findIndex(
    ({ of }, i) => i !== label && of.every((text) => ENDS.test(String(text ?? ''))),
  );
  if (label < 0 || end < 0) return null;
  return values[label].of.map((text, i) => `${text} ${values[end].of[i]}`);
}

function commonUnit(units: readonly (Unit | null)[]): Unit | null {
  const first = units.find((unit) => unit !== null) ?? null;
  const share = units.filter((unit) => unit === first).length / units.length;
  return first !== null && share >= NEARLY_ALL ? first : null;
}

function unreadable(block: Block, i: number, { lat, lon, pair }: Columns): Finding {
  const row = block.rows[i];
  const columns = pair === null ? [lat!, lon!] : [pair];
  const texts = columns.map(({ at }) => quoted(cellAt(row, at).text));
  const message = `${texts.join(' and ')}: no coordinates (degrees, or metres of a projected system expected)`;
  const spot = {
    table: sourceOf(block.table),
    row: row.row,
    column: columns.map(({ text }) => text).join(', '),
  };
  return errorAt(spot, 'not-a-coordinate', message);
}

function shortened(findings: Finding[], source: string): Finding[] {
  if (findings.length <= MOST_TOLD) return findings;
  const rest = formatCount(findings.length - MOST_TOLD);
  const message = `${rest} more rows whose coordinates cannot be read`;
  return [...findings.slice(0, MOST_TOLD), errorAt({ table: source }, 'not-a-coordinate', message)];
}
