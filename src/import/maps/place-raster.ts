/** Rasters with their place on the globe: as they are where a survey folder takes them so, else put on a grid of the UTM zone. */

import { readCrsCode } from '../../../shared/geokeys.ts';
import type { PlacedRaster, RawRaster } from '../../../shared/importing.ts';
import type { LngLat, XY } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import { type Converter, type CoordinateSystem, converterOf } from './crs.ts';
import { type Reading, unitOf } from './rank.ts';
import { boxOf } from './rings.ts';
import { formatDistance } from './words.ts';

const MOST_CELLS = 50_000_000;
/** Datums within this of each other are not told apart by what reads a survey folder. */
const SAME_DATUM_M = 2;

export type RasterPlaced = { raster: PlacedRaster; remarks: string[] } | { refused: string };

export function placeRaster(
  raster: RawRaster,
  about: string,
  system: CoordinateSystem,
  reading: Reading,
  converter: Converter,
): RasterPlaced {
  if (reading !== 'as-written')
    return {
      refused:
        'a raster whose coordinates are not as its system has them cannot be placed: GIS software can write it anew',
    };
  const named =
    raster.crs.kind === 'proj' ||
    (raster.crs.kind === 'epsg' && readCrsCode(raster.crs.code) !== null);
  if (named) return { raster: { ...raster, ...converter }, remarks: [] };
  return resampled(raster, about, system, converter);
}

/** Each cell of the new grid takes the value between the four cells around it; cells of the same size. */
function resampled(
  raster: RawRaster,
  about: string,
  system: CoordinateSystem,
  from: Converter,
): RasterPlaced {
  const { width, height, corner, step } = raster;
  const at = (column: number, row: number): XY => [
    corner[0] + column * step[0],
    corner[1] + row * step[1],
  ];
  let code: number;
  let cellM: number;
  const places: LngLat[] = [];
  try {
    const middle = from.toLngLat(...at(width / 2, height / 2));
    code = zoneOf(middle);
    // along the edges, for a straight edge bends
    for (let k = 0; k <= 20; k++)
      for (const [column, row] of [
        [(k / 20) * width, 0],
        [(k / 20) * width, height],
        [0, (k / 20) * height],
        [width, (k / 20) * height],
      ])
        places.push(from.toLngLat(...at(column, row)));
    cellM = Math.min(Math.abs(step[0]), Math.abs(step[1])) * unitOf(system.proj);
    if (system.geographic) cellM *= Math.cos((middle[1] * Math.PI) / 180);
  } catch {
    return { refused: 'parts of the raster lie nowhere on the globe by its coordinate system' };
  }
  const zone = utmZone(code);
  const to = converterOf(zone);
  const [west, south, east, north] = boxOf(places.map((place) => to.fromLngLat(place)));
  const [columns, rows] = [Math.ceil((east - west) / cellM), Math.ceil((north - south) / cellM)];
  if (!(columns * rows <= MOST_CELLS))
    return {
      refused: `on a grid of its UTM zone it would have ${formatCount(columns)} × ${formatCount(rows)} cells (at most ${MOST_CELLS / 1e6} million expected; GIS software cuts out the lake)`,
    };
  const values = new Float32Array(columns * rows).fill(Number.NaN);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const place = to.toLngLat(west + (column + 0.5) * cellM, north - (row + 0.5) * cellM);
      const [x, y] = from.fromLngLat(place);
      values[row * columns + column] = between(
        raster,
        (x - corner[0]) / step[0] - 0.5,
        (y - corner[1]) / step[1] - 0.5,
      );
    }
  return {
    raster: {
      ...raster,
      ...to,
      crs: { kind: 'epsg', code },
      width: columns,
      height: rows,
      corner: [west, north],
      step: [cellM, -cellM],
      values,
      original: null,
    },
    remarks: [
      `${about}: put from ${system.name} on a grid of ${zone.name} with cells of ${formatDistance(cellM)}, each value between the four around it`,
    ],
  };
}

/** Between cell centres, in cells; where one of the four has no value, the nearest; NaN where that has none. */
function between({ values, width, height }: RawRaster, column: number, row: number): number {
  if (column < -0.5 || row < -0.5 || column > width - 0.5 || row > height - 0.5) return Number.NaN;
  const [c, r] = [Math.min(Math.max(column, 0), width - 1), Math.min(Math.max(row, 0), height - 1)];
  const [c0, r0] = [
    Math.min(Math.floor(c), Math.max(0, width - 2)),
    Math.min(Math.floor(r), Math.max(0, height - 2)),
  ];
  const [c1, r1] = [Math.min(c0 + 1, width - 1), Math.min(r0 + 1, height - 1)];
  const [u, v] = [c - c0, r - r0];
  const value =
    (values[r0 * width + c0] * (1 - u) + values[r0 * width + c1] * u) * (1 - v) +
    (values[r1 * width + c0] * (1 - u) + values[r1 * width + c1] * u) * v;
  return Number.isNaN(value) ? values[Math.round(r) * width + Math.round(c)] : value;
}

/** EPSG code of the UTM zone (WGS 84) around a place. */
function zoneOf([lon, lat]: LngLat): number {
  const zone = Math.min(60, Math.max(1, Math.floor((lon + 180) / 6) + 1));
  return (lat < 0 ? 32700 : 32600) + zone;
}

function utmZone(code: number): CoordinateSystem {
  const south = code >= 32700;
  const zone = code - (south ? 32700 : 32600);
  return {
    name: `WGS 84 / UTM zone ${zone}${south ? 'S' : 'N'} (EPSG:${code})`,
    code,
    proj: `+proj=utm +zone=${zone}${south ? ' +south' : ''} +datum=WGS84 +units=m +no_defs`,
    offM: SAME_DATUM_M,
    datum: null,
    geographic: false,
  };
}
