/**
 * Whether a TIFF's own numbers hang together, judged before anything of it is unpacked: one changed byte of its head can
 * ask for any amount of memory. (TIFF 6.0, Adobe 1992, section 2; BigTIFF after the design of the libtiff maintainers.)
 */

import { formatCount } from './units.ts';

/** Bytes of one value by field type; absent = no type of the standard. */
const TYPE_BYTES: Record<number, number> = {
  1: 1,
  2: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  7: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
  16: 8,
  17: 8,
  18: 8,
};
/** Tags that list where the blocks (strips or tiles) lie. */
const OFFSETS = [273, 324];
/** Bytes that one block may unpack to: blocks are read one row of them at a time. */
const MOST_BLOCK_BYTES = 256e6;
const MOST_BLOCKS = 10_000_000;
/** A packed block is larger than its content by no more than this share, and a few bytes. */
const PACKED_SHARE = 1.1;
const PACKED_BYTES = 1024;

/** What is wrong with the first directory, in words, or how many blocks it lists. */
export function readDirectory(bytes: Uint8Array): { wrong: string } | { blocks: number } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 16) return { wrong: 'the file is too short' };
  const little = view.getUint16(0) === 0x4949;
  const big = view.getUint16(2, little) === 43;
  const at = big ? Number(view.getBigUint64(8, little)) : view.getUint32(4, little);
  const head = big ? 8 : 2;
  const size = big ? 20 : 12;
  if (at + head > bytes.length) return { wrong: 'its directory lies beyond its end' };
  const entries = big ? Number(view.getBigUint64(at, little)) : view.getUint16(at, little);
  if (at + head + entries * size > bytes.length)
    return { wrong: 'its directory ends beyond its end' };
  let blocks = 0;
  for (let k = 0; k < entries; k++) {
    const entry = at + head + k * size;
    const tag = view.getUint16(entry, little);
    const type = view.getUint16(entry + 2, little);
    const count = big
      ? Number(view.getBigUint64(entry + 4, little))
      : view.getUint32(entry + 4, little);
    const valueBytes = TYPE_BYTES[type];
    if (valueBytes === undefined) return { wrong: `tag ${tag} is of no known type (${type})` };
    if (count * valueBytes > bytes.length)
      return { wrong: `tag ${tag} has ${formatCount(count)} values, more than the file can hold` };
    if (OFFSETS.includes(tag)) blocks = count;
  }
  return { blocks };
}

/** Sizes that the file gives itself, in cells and bits. */
export interface RasterSize {
  width: number;
  height: number;
  blockWidth: number;
  blockHeight: number;
  bits: number;
  /** blocks that the directory lists */
  blocks: number;
}

/** What is wrong with the sizes, in words; null when nothing is. */
export function sizeFault(size: RasterSize): string | null {
  const { width, height, blockWidth, blockHeight, bits, blocks } = size;
  const whole = [width, height, blockWidth, blockHeight].every(
    (n) => Number.isInteger(n) && n >= 1,
  );
  if (!whole || !(bits >= 1 && bits <= 64))
    return `${shown(width)} × ${shown(height)} cells in blocks of ${shown(blockWidth)} × ${shown(blockHeight)} with ${shown(bits)} bits (whole numbers from 1, and at most 64 bits, expected)`;
  const needed = Math.ceil(width / blockWidth) * Math.ceil(height / blockHeight);
  if (needed > MOST_BLOCKS)
    return `${formatCount(needed)} blocks (at most ${formatCount(MOST_BLOCKS)} expected)`;
  if (blocks < needed)
    return `the places of ${formatCount(blocks)} blocks are given, but its size needs ${formatCount(needed)}`;
  const blockBytes = blockBytesOf(size);
  if (blockBytes <= MOST_BLOCK_BYTES) return null;
  return `blocks of ${formatCount(blockBytes / 1e6)} MB (at most ${MOST_BLOCK_BYTES / 1e6} MB expected; GIS software writes it anew in tiles)`;
}

/** The most bytes that a packed block of this size takes. */
export function mostPackedBytes(size: RasterSize): number {
  return blockBytesOf(size) * PACKED_SHARE + PACKED_BYTES;
}

function blockBytesOf({ blockWidth, blockHeight, bits }: RasterSize): number {
  return blockWidth * blockHeight * Math.ceil(bits / 8);
}

function shown(n: number): string {
  return Number.isFinite(n) ? String(n) : '?';
}
