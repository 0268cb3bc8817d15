/**
 * A base map of the user's own as picture tiles in one PMTiles archive, on the user's disk or at an address that serves parts
 * of files. Only what is looked at is read.
 */

import { Compression, FetchSource, PMTiles, type Source, TileType } from 'pmtiles';

export interface TileFile {
  minZoom: number;
  maxZoom: number;
  /** the picture as bytes; null where the file has none */
  tile(z: number, x: number, y: number): Promise<ArrayBuffer | null>;
}

const PICTURES = new Set([TileType.Png, TileType.Jpeg, TileType.Webp, TileType.Avif]);
/** Of the header (PMTiles specification, version 3): its name in seven letters, the version, how directories are packed. */
const HEADER = { bytes: 127, version: 7, packing: 97 };

/** Throws, in a sentence for the user, on what is not a version 3 archive of picture tiles. */
export async function openTileFile(from: Blob | string): Promise<TileFile> {
  const source = typeof from === 'string' ? new FetchSource(from) : blobSource(from);
  await checkHeader(source);
  const archive = new PMTiles(source);
  const { tileType, minZoom, maxZoom } = await archive.getHeader();
  if (!PICTURES.has(tileType))
    throw new Error('This PMTiles file holds no picture tiles; vector tiles cannot be shown.');
  return {
    minZoom,
    maxZoom,
    tile: async (z, x, y) => (await archive.getZxy(z, x, y))?.data ?? null,
  };
}

/** What the library would refuse in words of its own. */
async function checkHeader(source: Source): Promise<void> {
  const head = new Uint8Array((await source.getBytes(0, HEADER.bytes)).data);
  if (head.length < HEADER.bytes || String.fromCharCode(...head.slice(0, 7)) !== 'PMTiles')
    throw new Error('This is not a PMTiles file.');
  const version = head[HEADER.version];
  if (version !== 3)
    throw new Error(`This PMTiles file is of version ${version}; only version 3 can be read.`);
  const packing = head[HEADER.packing];
  if (packing !== Compression.None && packing !== Compression.Gzip)
    throw new Error('This PMTiles file is packed in a way that cannot be read (gzip expected).');
}

function blobSource(blob: Blob): Source {
  return {
    getKey: () => 'own-file',
    getBytes: async (offset, length) => ({
      data: await blob.slice(offset, offset + length).arrayBuffer(),
    }),
  };
}
