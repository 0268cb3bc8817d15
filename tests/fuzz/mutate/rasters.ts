/** Mutations of depth.tif: bytes of its head, and depths that are none. */

import { type Files, type Mutation, one } from './draw.ts';

const FILE = 'depth.tif';
/** Head, directory and keys of a small raster lie within its first bytes. */
const HEAD_BYTES = 700;

function change(files: Files, edit: (view: DataView) => string): string | null {
  const bytes = files.get(FILE);
  if (bytes === undefined || bytes.length < 100) return null;
  const copy = Uint8Array.from(bytes);
  const done = edit(new DataView(copy.buffer));
  files.set(FILE, copy);
  return `${FILE}: ${done}`;
}

const head: Mutation = (random, files) =>
  change(files, (view) => {
    const at = random.integer(Math.min(HEAD_BYTES, view.byteLength));
    const value = one(random, [0, 1, 127, 128, 255, random.integer(256)]);
    view.setUint8(at, value);
    return `byte ${at} is ${value}`;
  });

/** A tag of the directory with another type, count or value. */
const tag: Mutation = (random, files) =>
  change(files, (view) => {
    const directory = view.getUint32(4, true);
    const entries = directory + 2 <= view.byteLength ? view.getUint16(directory, true) : 0;
    const at = directory + 2 + 12 * random.integer(Math.max(1, entries));
    if (at + 12 > view.byteLength) return 'a directory beyond its end';
    const number = view.getUint16(at, true);
    const part = random.integer(3);
    const value = one(random, [0, 1, 2, 255, 65_535, 70_000, 2 ** 31, 2 ** 32 - 1]);
    if (part === 0) view.setUint16(at + 2, value % 20, true);
    else view.setUint32(at + (part === 1 ? 4 : 8), value, true);
    return `tag ${number}: ${['type', 'count', 'value'][part]} ${value}`;
  });

const NO_DATA = [
  -9999,
  -32_768,
  9999,
  32_767,
  65_535,
  99_999,
  1e6,
  1e20,
  3.4e38,
  -3.4e38,
  Infinity,
  NaN,
];

/** Cells from the end backwards are depths as 4-byte floats: some, or all, are replaced. */
const depths: Mutation = (random, files) =>
  change(files, (view) => {
    const cells = Math.floor((view.byteLength - HEAD_BYTES) / 4);
    const value = one(random, NO_DATA);
    const every = one(random, [1, 2, 50, 1000]);
    for (let k = random.integer(every); k < cells; k += every)
      view.setFloat32(view.byteLength - 4 * (k + 1), value, true);
    return `every ${every}. depth is ${value}`;
  });

export const RASTER_MUTATIONS: Record<string, Mutation> = {
  'raster: byte': head,
  'raster: tag': tag,
  'raster: depths': depths,
};

/** Whether a folder has a raster, so that its mutations are drawn more often. */
export function hasRaster(files: Files): boolean {
  return files.has(FILE);
}
