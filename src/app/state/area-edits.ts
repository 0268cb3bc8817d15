/**
 * Areas that are drawn: the features of treatments.geojson, and of keep-out.geojson the places where none may be proposed.
 * Each change is that of one feature at its place in the file; the other features stay as they are.
 */

import type { LngLat, LngLatPolygon } from '../../../shared/survey.ts';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../../shared/survey-files.ts';
import { quoted } from '../../../shared/words.ts';
import type { Edit } from '../contract.ts';
import { withEntryAt } from './entry-at.ts';

export type AreaFile = typeof TREATMENTS_FILE | typeof KEEP_OUT_FILE;
/** Treatment areas first. */
export const AREA_FILES: readonly AreaFile[] = [TREATMENTS_FILE, KEEP_OUT_FILE];

/** An area with its place in the file, from 1. */
export interface PlacedArea {
  place: number;
  name: string;
  polygons: LngLatPolygon[];
}

export type AreaEdit = Omit<Edit, 'before' | 'at'>;

/** As column of an edit: the whole feature as JSON. Blank after = removed; blank before = added. */
const WHOLE_FEATURE = '*';
/** A corner to some 0.01 m. */
const DECIMALS = 1e7;

export function isAreaFile(file: string): boolean {
  return (AREA_FILES as readonly string[]).includes(file);
}

/** The areas of a file; empty where it is blank or cannot be read, which the reader tells. */
export function areasIn(text: string): PlacedArea[] {
  try {
    return fileOf(text).features.flatMap((feature, i) => {
      const polygons = polygonsOf(feature);
      return polygons.length === 0
        ? []
        : [{ place: i + 1, name: nameOf(feature, i + 1), polygons }];
    });
  } catch {
    return [];
  }
}

export function addArea(
  file: AreaFile,
  text: string,
  name: string,
  polygons: readonly LngLatPolygon[],
  how: string,
): AreaEdit {
  const place = fileOf(text).features.length + 1;
  return editAt(file, place, featureOf({ name }, polygons), `${quoted(name)} ${how}`);
}

export function reshapeArea(
  file: AreaFile,
  text: string,
  { place, name }: PlacedArea,
  polygons: readonly LngLatPolygon[],
  how: string,
): AreaEdit {
  const feature = featureOf(propertiesAt(text, place), polygons);
  return editAt(file, place, feature, `${quoted(name)} ${how}`);
}

export function renameArea(
  file: AreaFile,
  text: string,
  { place, name, polygons }: PlacedArea,
  to: string,
): AreaEdit {
  const given = propertiesAt(text, place);
  const properties = Object.fromEntries(Object.entries(given).filter(([key]) => !isName(key)));
  const feature = featureOf({ name: to, ...properties }, polygons);
  return editAt(file, place, feature, `${quoted(name)} renamed to ${quoted(to)}`);
}

export function removeArea(file: AreaFile, { place, name }: PlacedArea): AreaEdit {
  return {
    file,
    row: place,
    column: WHOLE_FEATURE,
    after: '',
    reason: `${quoted(name)} removed`,
  };
}

/** Two become one at the place of the first: a change of the whole file, so that one step takes it back. */
export function joinAreas(
  file: AreaFile,
  text: string,
  first: PlacedArea,
  second: PlacedArea,
  polygons: readonly LngLatPolygon[],
): AreaEdit {
  const whole = fileOf(text);
  const features = whole.features.flatMap((feature, i) => {
    if (i + 1 === second.place) return [];
    return [i + 1 === first.place ? featureOf(propertiesAt(text, first.place), polygons) : feature];
  });
  return {
    file,
    row: null,
    column: WHOLE_FEATURE,
    after: textOf({ ...whole, features }),
    reason: `${quoted(first.name)} and ${quoted(second.name)} joined`,
  };
}

/** A name that no area of the list has: `Area 3`. */
export function freeName(areas: readonly PlacedArea[], stem: string): string {
  const taken = new Set(areas.map(({ name }) => name));
  for (let i = areas.length + 1; ; i++) if (!taken.has(`${stem} ${i}`)) return `${stem} ${i}`;
}

/** The feature's JSON; blank past the end. Throws with a sentence when the file cannot be read. */
export function featureAt(text: string, place: number): string {
  const feature = fileOf(text).features[place - 1];
  return feature === undefined ? '' : JSON.stringify(feature);
}

/** The file with the feature put there, in between where it was added or removed before; blank without any feature. */
export function withFeatureAt(
  text: string,
  edit: Pick<Edit, 'file' | 'row' | 'before' | 'after'>,
  value: string,
): string {
  const whole = fileOf(text);
  const features = withEntryAt(whole.features, edit, value, 'areas');
  return features.length === 0 ? '' : textOf({ ...whole, features });
}

type Json = Record<string, unknown>;

interface WholeFile {
  /** members of the collection beside its features */
  members: Json;
  features: unknown[];
}

/** A file of one feature or of a bare geometry is a collection of one. */
function fileOf(text: string): WholeFile {
  if (text.trim() === '') return { members: {}, features: [] };
  const json = JSON.parse(text.replace(/^\uFEFF/, '')) as Json;
  if (json.type !== 'FeatureCollection')
    return {
      members: {},
      features: [
        json.type === 'Feature' ? json : { type: 'Feature', properties: {}, geometry: json },
      ],
    };
  const { type: _, features, ...members } = json;
  if (!Array.isArray(features)) throw new Error('the collection has no list of features');
  return { members, features };
}

/** One line a feature. */
function textOf({ members, features }: WholeFile): string {
  const others = Object.entries(members).map(
    ([k, v]) => `${JSON.stringify(k)}:${JSON.stringify(v)},`,
  );
  const lines = features.map((feature) => JSON.stringify(feature));
  return `{"type":"FeatureCollection",${others.join('')}"features":[\n${lines.join(',\n')}\n]}\n`;
}

const isName = (key: string): boolean => key.trim().toLowerCase() === 'name';

function nameOf(feature: unknown, place: number): string {
  const key = Object.keys(propertiesOf(feature)).find(isName);
  const name = key === undefined ? '' : String(propertiesOf(feature)[key] ?? '').trim();
  return name === '' ? `area ${place}` : name;
}

function propertiesAt(text: string, place: number): Json {
  return propertiesOf(fileOf(text).features[place - 1]);
}

function propertiesOf(feature: unknown): Json {
  return ((feature as Json | null)?.properties as Json | null | undefined) ?? {};
}

function polygonsOf(feature: unknown): LngLatPolygon[] {
  return partsOf((feature as Json | null)?.geometry as Json | null | undefined);
}

function partsOf(geometry: Json | null | undefined): LngLatPolygon[] {
  const { type, coordinates, geometries } = geometry ?? {};
  if (type === 'GeometryCollection') return (geometries as Json[]).flatMap(partsOf);
  if (type !== 'Polygon' && type !== 'MultiPolygon') return [];
  const polygons = (type === 'Polygon' ? [coordinates] : coordinates) as number[][][][];
  return polygons.map((rings) => rings.map((ring) => ring.map(([lon, lat]): LngLat => [lon, lat])));
}

function featureOf(properties: Json, polygons: readonly LngLatPolygon[]): Json {
  const round = (x: number): number => Math.round(x * DECIMALS) / DECIMALS;
  const rounded = polygons.map((rings) =>
    rings.map((ring) => ring.map(([lon, lat]): LngLat => [round(lon), round(lat)])),
  );
  return {
    type: 'Feature',
    properties,
    geometry:
      rounded.length === 1
        ? { type: 'Polygon', coordinates: rounded[0] }
        : { type: 'MultiPolygon', coordinates: rounded },
  };
}

function editAt(file: AreaFile, place: number, feature: Json, reason: string): AreaEdit {
  return { file, row: place, column: WHOLE_FEATURE, after: JSON.stringify(feature), reason };
}
