/** The numbers of a layer or raster, what it says of them, and what was settled. */

import { positionsOf, type RawLayer, type RawRaster } from '../../../shared/importing.ts';
import { type CoordinateSystem, readSystem } from './crs.ts';
import type { Reading } from './rank.ts';

/** What a layer or raster has of numbers, and what it says of them. */
export interface Numbers {
  item: RawLayer | RawRaster;
  about: string;
  positions: number[][];
  /** what the file names; null where it names none or one that is not known */
  system: CoordinateSystem | null;
  /** why the named one cannot be used */
  refused: string | null;
  /** why the named one cannot be right */
  doubt: string | null;
}

export interface Settled {
  system: CoordinateSystem;
  reading: Reading;
}

export const READINGS: Record<Reading, string> = {
  'as-written': 'as written',
  exchanged: 'with its two coordinates exchanged',
  'minus-lost': 'with a minus before its longitudes, which they lost',
  'exchanged-minus-lost': 'with its two coordinates exchanged and a minus before its longitudes',
};

export function numbersOfLayer(layer: RawLayer): Numbers {
  const about = layer.layer === null ? layer.file : `${layer.file}, layer ${layer.layer}`;
  return {
    ...namedBy(layer),
    item: layer,
    about,
    positions: layer.features.flatMap((f) => positionsOf(f.geometry)),
  };
}

export function numbersOfRaster(raster: RawRaster): Numbers {
  const [x, y] = raster.corner;
  const [x2, y2] = [x + raster.width * raster.step[0], y + raster.height * raster.step[1]];
  const positions = [
    [x, y],
    [x2, y],
    [x2, y2],
    [x, y2],
    [(x + x2) / 2, (y + y2) / 2],
  ];
  return { ...namedBy(raster), item: raster, about: raster.file, positions };
}

function namedBy({ crs }: RawLayer | RawRaster): Pick<Numbers, 'system' | 'refused' | 'doubt'> {
  const read = readSystem(crs);
  if (read === null) return { system: null, refused: null, doubt: null };
  return 'system' in read
    ? { system: read.system, refused: null, doubt: null }
    : { system: null, refused: read.refused, doubt: null };
}
