/**
 * A base map of the user's own in one file: picture tiles in a PMTiles archive, version 3
 * (github.com/protomaps/PMTiles, spec/v3). Read by slices; the file stays on the user's disk.
 */

export interface TileFile {
  minZoom: number;
  maxZoom: number;
  /** the picture as bytes; null where the file has none */
  tile(z: number, x: number, y: number): Promise<Uint8Array<ArrayBuffer> | null>;
}

const HEADER_BYTES = 127;
/** Header fields: offset and width in bytes. */
const AT = { root: 8, leaves: 40, data: 56, packing: 97, tilePacking: 98, type: 99, zooms: 100 };
const UNPACKED = 1;
const GZIP = 2;
/** PNG, JPEG, WebP, AVIF */
const PICTURES = new Set([2, 3, 4, 5]);
/** Leaves may point to leaves; the specification expects one level, writers make at most a few. */
const MOST_LEVELS = 4;

interface Entry {
  id: number;
  offset: number;
  length: number;
  /** how many tiles in a row are this one; 0 = a further directory */
  run: number;
}

/** Throws, in a sentence for the user, on what is not a version 3 archive of picture tiles. */
export async function openTileFile(file: Blob): Promise<TileFile> {
  const head = new DataView(await file.slice(0, HEADER_BYTES).arrayBuffer());
  const name = String.fromCharCode(...new Uint8Array(head.buffer).slice(0, 7));
  if (head.byteLength < HEADER_BYTES || name !== 'PMTiles')
    throw new Error('This is not a PMTiles file.');
  const version = head.getUint8(7);
  if (version !== 3)
    throw new Error(`This PMTiles file is of version ${version}; only version 3 can be read.`);
  if (!PICTURES.has(head.getUint8(AT.type)))
    throw new Error('This PMTiles file holds no picture tiles; vector tiles cannot be shown.');
  const packing = head.getUint8(AT.packing);
  if (packing !== UNPACKED && packing !== GZIP)
    throw new Error('This PMTiles file is packed in a way that cannot be read (gzip expected).');
  const tilePacking = head.getUint8(AT.tilePacking);
  const whole = (at: number): number => Number(head.getBigUint64(at, true));
  const section = (from: number, length: number): Promise<Uint8Array<ArrayBuffer>> =>
    bytesOf(file.slice(from, from + length));
  const directory = async (from: number, length: number): Promise<Entry[]> =>
    entries(
      packing === GZIP ? await unzipped(await section(from, length)) : await section(from, length),
    );

  const root = await directory(whole(AT.root), whole(AT.root + 8));
  const leaves = new Map<number, Promise<Entry[]>>();
  const leaf = (offset: number, length: number): Promise<Entry[]> => {
    let made = leaves.get(offset);
    if (made === undefined) {
      made = directory(whole(AT.leaves) + offset, length);
      leaves.set(offset, made);
    }
    return made;
  };

  return {
    minZoom: head.getUint8(AT.zooms),
    maxZoom: head.getUint8(AT.zooms + 1),
    async tile(z, x, y) {
      const id = tileId(z, x, y);
      let entry = lastUpTo(root, id);
      for (let level = 0; entry?.run === 0; level++) {
        if (level === MOST_LEVELS) return null;
        entry = lastUpTo(await leaf(entry.offset, entry.length), id);
      }
      if (entry === null || id >= entry.id + entry.run) return null;
      const bytes = await section(whole(AT.data) + entry.offset, entry.length);
      return tilePacking === GZIP ? unzipped(bytes) : bytes;
    },
  };
}

/** Number of a tile along the Hilbert curves of all zooms, one after the other. */
export function tileId(z: number, x: number, y: number): number {
  let id = (4 ** z - 1) / 3;
  let [a, b] = [x, y];
  for (let side = 2 ** z / 2; side >= 1; side /= 2) {
    const right = (a & side) > 0 ? 1 : 0;
    const lower = (b & side) > 0 ? 1 : 0;
    id += side * side * ((3 * right) ^ lower);
    if (lower === 0) {
      // the quarter's own curve is turned
      if (right === 1) [a, b] = [side - 1 - (a & (side - 1)), side - 1 - (b & (side - 1))];
      [a, b] = [b, a];
    }
  }
  return id;
}

function lastUpTo(list: readonly Entry[], id: number): Entry | null {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (list[middle]!.id <= id) low = middle + 1;
    else high = middle;
  }
  return list[low - 1] ?? null;
}

/** Columns of numbers: ids as differences, runs, lengths, offsets (0 = right behind the one before). */
function entries(bytes: Uint8Array): Entry[] {
  let at = 0;
  const next = (): number => {
    let value = 0;
    for (let factor = 1; ; factor *= 128) {
      const byte = bytes[at++];
      if (byte === undefined) throw new Error('This PMTiles file ends in the middle of its index.');
      value += (byte & 127) * factor;
      if (byte < 128) return value;
    }
  };
  const list: Entry[] = Array.from({ length: next() }, () => ({
    id: 0,
    offset: 0,
    length: 0,
    run: 0,
  }));
  let id = 0;
  for (const entry of list) {
    id += next();
    entry.id = id;
  }
  for (const entry of list) entry.run = next();
  for (const entry of list) entry.length = next();
  list.forEach((entry, i) => {
    const stored = next();
    const before = list[i - 1];
    entry.offset = stored === 0 && before ? before.offset + before.length : stored - 1;
  });
  return list;
}

async function unzipped(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

async function bytesOf(blob: Blob): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await blob.arrayBuffer());
}
