/** Layers and rasters in their own coordinates → longitude and latitude; what is not named or cannot be is asked. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type { Ask, PlacedRaster, RawLayer, RawRaster } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { listed } from '../../../shared/words.ts';
import { groupsAlike } from './alike.ts';
import { askWhere } from './ask-where.ts';
import { type Converter, type CoordinateSystem, converterOf, LONGITUDE_LATITUDE } from './crs.ts';
import { type Datum, MODERN } from './datums.ts';
import {
  type Numbers,
  numbersOfLayer,
  numbersOfRaster,
  READINGS,
  type Settled,
} from './numbers.ts';
import { placeRaster } from './place-raster.ts';
import { metresBetween, middleOf, readingOf, thinned } from './rank.ts';
import { boxOf } from './rings.ts';
import { moved } from './shapes.ts';
import { formatDistance } from './words.ts';

export interface Placed {
  layers: RawLayer[];
  rasters: PlacedRaster[];
  findings: Finding[];
  remarks: string[];
}

/** A named system that puts its shapes farther than this from the known places is doubted. */
const DOUBTED_M = 50_000;
const SOME = 200;

/**
 * `near`: known waypoints, in longitude and latitude; where there is none, layers of a GPS and others whose place is certain
 * stand in. Items whose question was answered by leaving them out, or not at all, are left out.
 */
export function placeLayers(
  layers: readonly RawLayer[],
  rasters: readonly RawRaster[],
  near: readonly LngLat[],
  ask: Ask,
): Placed {
  const placed: Placed = { layers: [], rasters: [], findings: [], remarks: [] };
  const all = [...layers.map(numbersOfLayer), ...rasters.map(numbersOfRaster)];
  const places = near.length > 0 ? near : placesOf(all);
  const settled = new Map<Numbers['item'], Settled>();
  const open: Numbers[] = [];
  for (const numbers of all) {
    const doubt = numbers.system === null ? 'unnamed' : doubtOf(numbers, numbers.system, places);
    if (doubt === null)
      settled.set(numbers.item, { system: numbers.system!, reading: 'as-written' });
    else open.push(numbers.system === null ? numbers : { ...numbers, doubt });
  }
  const named = all
    .filter(({ item, system }) => settled.has(item) && system !== LONGITUDE_LATITUDE)
    .map(({ about, system }) => ({ about, system: system! }));
  const known = { near: places, named };
  for (const [k, group] of groupsAlike(open).entries()) {
    const answer = askWhere(group, k, known, ask, placed.remarks);
    for (const numbers of group) {
      if (answer !== null) settled.set(numbers.item, answer);
      else
        placed.findings.push(
          noticeAt(
            { table: numbers.about },
            'not-placed',
            'its coordinate system is not settled: left out',
          ),
        );
    }
  }
  for (const numbers of all) {
    const where = settled.get(numbers.item);
    if (where !== undefined) placeOne(numbers, where, placed);
  }
  for (const remark of datumsTold(all, settled)) placed.remarks.push(remark);
  return placed;
}

/** How far off places may be by their datum: one sentence for each, with all that stands on it. */
function datumsTold(all: readonly Numbers[], settled: Map<Numbers['item'], Settled>): string[] {
  const on = new Map<string, { datum: Datum; abouts: string[] }>();
  for (const { item, about } of all) {
    const datum = settled.get(item)?.system.datum ?? null;
    if (datum === null) continue;
    const known = on.get(datum.label);
    if (known === undefined) on.set(datum.label, { datum, abouts: [about] });
    else known.abouts.push(about);
  }
  return [...on.values()].map(({ datum, abouts }) => {
    const how = datum.proj === MODERN.proj ? 'taken for' : 'shifted by a few parameters to';
    const by = datum.operation === null ? 'as the file gives them' : `EPSG:${datum.operation}`;
    const exact =
      datum.proj === MODERN.proj
        ? ''
        : '; an exact shift needs a grid of corrections: GIS software can write the map in WGS 84';
    return `${listed(abouts, 'and')}: on the datum ${datum.label}, which is ${how} WGS 84 (${by}): places may be off by up to ${datum.offM} m${exact}`;
  });
}

function placeOne(numbers: Numbers, { system, reading }: Settled, placed: Placed): void {
  const { item, about } = numbers;
  const converter = readingOf(converterOf(system), reading);
  if (system !== LONGITUDE_LATITUDE || reading !== 'as-written') {
    const how = reading === 'as-written' ? '' : ` (${READINGS[reading]})`;
    placed.remarks.push(`${about}: placed by ${system.name}${how}`);
  }
  if ('features' in item) placeLayer(item, about, converter, placed);
  else {
    const made = placeRaster(item, about, system, reading, converter);
    if ('refused' in made)
      placed.findings.push(noticeAt({ table: about }, 'not-placed', made.refused));
    else {
      placed.rasters.push(made.raster);
      for (const remark of made.remarks) placed.remarks.push(remark);
    }
  }
}

function placeLayer(layer: RawLayer, about: string, converter: Converter, placed: Placed): void {
  const lost: number[] = [];
  const features = layer.features.flatMap((feature) => {
    try {
      const geometry = moved(feature.geometry, ([x, y, ...rest]) => [
        ...converter.toLngLat(x, y),
        ...rest,
      ]);
      return [{ ...feature, geometry }];
    } catch {
      lost.push(feature.row);
      return [];
    }
  });
  if (lost.length > 0)
    placed.findings.push(
      noticeAt(
        { table: about, row: lost[0] },
        'off-the-globe',
        `${lost.length} of ${layer.features.length} shapes have positions that its coordinate system puts nowhere on the globe: left out`,
      ),
    );
  if (features.length > 0)
    placed.layers.push({ ...layer, crs: { kind: 'epsg', code: 4326 }, features });
}

/** What is certain of its place without waypoints: GPS first, then what names its system. */
function placesOf(all: readonly Numbers[]): LngLat[] {
  const gps = all.filter(({ item }) => 'features' in item && item.from === 'gps');
  const known = gps.length > 0 ? gps : all.filter(({ system }) => system !== null);
  return known.flatMap(({ system, positions }) => {
    const converter = converterOf(system ?? LONGITUDE_LATITUDE);
    return thinned(positions, SOME).flatMap(([x, y]) => {
      try {
        return [converter.toLngLat(x, y)];
      } catch {
        return [];
      }
    });
  });
}

/** Why a named system cannot be right; null when it can. */
function doubtOf(
  numbers: Numbers,
  system: CoordinateSystem,
  near: readonly LngLat[],
): string | null {
  const converter = converterOf(system);
  const places: LngLat[] = [];
  for (const [x, y] of thinned(numbers.positions, SOME)) {
    try {
      places.push(converter.toLngLat(x, y));
    } catch {
      // told below: these numbers are not of that system
    }
  }
  if (2 * places.length < Math.min(numbers.positions.length, SOME) || places.length === 0)
    return `${system.name} puts most of its positions nowhere on the globe`;
  if (near.length === 0) return null;
  const middle = middleOf(near);
  if (isAround(numbers, converter, middle)) return null;
  const least = places.reduce((m, place) => Math.min(m, metresBetween(place, middle)), Infinity);
  return least > DOUBTED_M
    ? `${system.name} puts it ${formatDistance(least)} from the known places`
    : null;
}

/** Whether a place lies within the box of the numbers: of a map of a whole state no position need be near. */
function isAround(numbers: Numbers, converter: Converter, place: LngLat): boolean {
  const box = boxOf(numbers.positions);
  try {
    const [x, y] = converter.fromLngLat(place);
    return x >= box[0] && x <= box[2] && y >= box[1] && y <= box[3];
  } catch {
    return false;
  }
}
