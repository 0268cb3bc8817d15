/** Bytes of depth.tif → a raster of depth in m, or what is wrong with it. */

import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { readCrs, verticalUnit } from '../../shared/geokeys.ts';
import type { DepthRaster, LngLat } from '../../shared/survey.ts';
import { DEEPEST_LAKE_M } from '../../shared/tables.ts';
import { formatCount } from '../../shared/units.ts';
import { plain, visible } from '../../shared/words.ts';
import './raster-decoders.ts';
import {
  mostPackedBytes,
  type RasterSize,
  readDirectory,
  sizeFault,
} from '../../shared/raster-size.ts';
import { PACKINGS } from '../../shared/raster-unpack.ts';
import { type CellRange, cornersTold, rangeAround } from './raster-range.ts';

const PIXEL_IS_POINT = 2;
/** SampleFormat of IEEE floats */
const FLOAT = 3;
/** Of a reason given by the reader so much is shown. */
const LONGEST_REASON = 200;
const SYSTEMS =
  'WGS 84, NAD 83 or ETRS 89, geographic or UTM; Web Mercator; or keys for transverse Mercator, Lambert conic, ' +
  'Lambert azimuthal equal-area or Albers';

/** More cells than this are not read; a grid has no more. */
const MOST_CELLS = 50_000_000;
/** So many cells are unpacked at a time. */
const CELLS_AT_ONCE = 4_000_000;

export type RasterRead =
  | { raster: DepthRaster; findings: Finding[] }
  | { raster: null; findings: Finding[] };

type Refuse = (code: string, message: string) => RasterRead;

/**
 * One band, north up, depth positive down, in one of the systems of geokeys.ts. Of a large raster only what lies around
 * `outline` (positions of the lake's outline; none = all of it) is read. Never throws.
 */
export async function readDepthRaster(
  table: string,
  bytes: Uint8Array,
  outline: readonly LngLat[],
): Promise<RasterRead> {
  const refuse = (code: string, message: string): RasterRead => ({
    raster: null,
    findings: [errorAt({ table }, code, message)],
  });
  if (bytes.length === 0) return refuse('file-empty', 'the file is empty');
  const directory = readDirectory(bytes);
  if ('wrong' in directory) return refuse('unreadable-raster', unreadable(directory.wrong));
  try {
    // a copy: the reader wants a buffer that begins with the file (slice of a Node Buffer would not copy)
    const tiff = await fromArrayBuffer(new Uint8Array(bytes).buffer);
    const image = await tiff.getImage(0);
    const size = sizeOf(image, directory.blocks);
    const wrong = sizeFault(size) ?? (await packedFault(image, size, bytes.length));
    if (wrong !== null) return refuse('unreadable-raster', unreadable(wrong));
    return await readImage(image, size, outline, table, refuse);
  } catch (error) {
    return refuse('unreadable-raster', unreadable(reasonOf(error)));
  }
}

/** What the reader says; not where it speaks of values of its own that it did not get. */
function reasonOf(error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  if (/undefined|\bNaN\b|\bnull\b|\[object/.test(reason)) return 'its tags contradict one another';
  return visible(reason).slice(0, LONGEST_REASON);
}

function unreadable(reason: string): string {
  return `not a GeoTIFF that can be read (${reason})`;
}

function sizeOf(image: GeoTIFFImage, blocks: number): RasterSize {
  return {
    width: image.getWidth(),
    height: image.getHeight(),
    blockWidth: image.getTileWidth(),
    blockHeight: image.getTileHeight(),
    bits: image.getBitsPerSample(0),
    blocks,
  };
}

/** Whether blocks are packed in a way that is known, and take no more bytes than they hold, as far as the file lists them. */
async function packedFault(
  image: GeoTIFFImage,
  size: RasterSize,
  fileBytes: number,
): Promise<string | null> {
  const directory = image.getFileDirectory();
  const packing = Number(directory.getValue('Compression') ?? 1);
  if (!PACKINGS.has(packing))
    return `packed in a way that is not read, ${Number.isFinite(packing) ? packing : '?'} (deflate, LZW, PackBits or none expected; GIS software writes it anew)`;
  const name = image.isTiled ? 'TileByteCounts' : 'StripByteCounts';
  const listed: unknown = await directory.loadValue(name);
  const counts = typeof listed === 'number' ? [listed] : (listed as ArrayLike<number> | undefined);
  const most = Math.min(fileBytes, mostPackedBytes(size));
  for (let k = 0; k < (counts?.length ?? 0); k++) {
    const count = Number(counts![k]);
    if (count > most)
      return `block ${k + 1} takes ${formatCount(count)} bytes, more than it can hold`;
  }
  return null;
}

async function readImage(
  image: GeoTIFFImage,
  { width, height }: RasterSize,
  outline: readonly LngLat[],
  table: string,
  refuse: Refuse,
): Promise<RasterRead> {
  const bands: unknown = image.getSamplesPerPixel();
  if (bands !== 1) {
    // a file with a wrong byte gives a list here
    const told = typeof bands === 'number' ? `${bands}` : 'no number of';
    return refuse('several-bands', `${told} bands (a single band of depth in metres expected)`);
  }
  const keys = image.getGeoKeys();
  const read = readCrs(keys);
  if ('refused' in read) {
    const found =
      read.refused === null
        ? 'no coordinate reference system'
        : `coordinates in ${visible(read.refused)}`;
    return refuse('other-crs', `${found} (${SYSTEMS} expected)`);
  }
  const unit = verticalUnit(keys) ?? (await bandUnit(image));
  if (unit !== null) return refuse('depth-unit', `depths are in ${unit} (metres expected)`);
  const place = placement(image, keys?.GTRasterTypeGeoKey === PIXEL_IS_POINT);
  if (typeof place === 'string') return refuse('not-north-up', place);
  const placed = { ...place, crs: read.crs };
  const range = rangeAround(outline, placed, width, height);
  if (range === null) {
    const where = cornersTold(outline, placed, width, height);
    return refuse('raster-off-lake', `no part of the lake lies on the raster: ${where}`);
  }
  const [nx, ny] = [range.x1 - range.x0, range.y1 - range.y0];
  if (nx * ny > MOST_CELLS) {
    const message = `${formatCount(nx)} × ${formatCount(ny)} cells lie around the lake (at most ${MOST_CELLS / 1e6} million expected; a GIS makes a coarser raster of it)`;
    return refuse('raster-too-large', message);
  }
  const depthM = await readDepths(image, range);
  const judged = judgeDepths(depthM, table);
  if (judged.some((f) => f.severity === 'error')) return { raster: null, findings: judged };
  return {
    raster: {
      kind: 'raster',
      width: nx,
      height: ny,
      depthM,
      originX: place.originX + range.x0 * place.stepX,
      originY: place.originY + range.y0 * place.stepY,
      stepX: place.stepX,
      stepY: place.stepY,
      crs: read.crs,
    },
    findings: judged,
  };
}

/** The unit that the band itself names, if not metres. */
async function bandUnit(image: GeoTIFFImage): Promise<string | null> {
  const unit = (await image.getGDALMetadata(0))?.UNITTYPE;
  if (typeof unit !== 'string' || /^(|m|met(re|er)s?)$/i.test(unit.trim())) return null;
  return /^(ft|feet|foot|us)/i.test(unit.trim()) ? 'feet' : visible(unit.trim());
}

/** Centre of the first cell and the steps; a message when the raster has no place or is turned. */
function placement(image: GeoTIFFImage, isPoint: boolean) {
  const directory = image.getFileDirectory();
  const scale: ArrayLike<number> | undefined = directory.getValue('ModelPixelScale');
  const ties: ArrayLike<number> | undefined = directory.getValue('ModelTiepoint');
  const matrix: ArrayLike<number> | undefined = directory.getValue('ModelTransformation');
  const half = isPoint ? 0 : 0.5;
  if (scale !== undefined && ties !== undefined && ties.length === 6) {
    const [stepX, stepY] = [scale[0], -scale[1]];
    return finitePlace(
      ties[3] + (half - ties[0]) * stepX,
      ties[4] + (half - ties[1]) * stepY,
      stepX,
      stepY,
    );
  }
  if (matrix !== undefined && matrix.length === 16) {
    if (matrix[1] !== 0 || matrix[4] !== 0) {
      return 'the raster is turned against its coordinates (north up expected)';
    }
    const [stepX, stepY] = [matrix[0], matrix[5]];
    return finitePlace(matrix[3] + half * stepX, matrix[7] + half * stepY, stepX, stepY);
  }
  return 'the raster has no single origin and cell size (north up, with both, expected)';
}

function finitePlace(originX: number, originY: number, stepX: number, stepY: number) {
  const finite = [originX, originY, stepX, stepY].every(Number.isFinite);
  if (!finite || stepX === 0 || stepY === 0) {
    const shown = (v: unknown) => (typeof v === 'number' && Number.isFinite(v) ? v : '?');
    return `origin ${shown(originX)}, ${shown(originY)} and steps ${shown(stepX)}, ${shown(stepY)} (finite and not 0 expected)`;
  }
  return { originX, originY, stepX, stepY };
}

/** Depths with the file's scale and offset applied, NaN where it has no data; some rows at a time. */
async function readDepths(
  image: GeoTIFFImage,
  { x0, y0, x1, y1 }: CellRange,
): Promise<Float32Array | Float64Array> {
  const noData = image.getGDALNoData();
  const meta = await image.getGDALMetadata(0);
  const scale = Number(meta?.SCALE ?? 1);
  const offset = Number(meta?.OFFSET ?? 0);
  const nx = x1 - x0;
  const cells = nx * (y1 - y0);
  // what is stored in 4 bytes at most and not scaled loses nothing in 4 bytes, which halves a large lake's memory
  const exact =
    scale === 1 &&
    offset === 0 &&
    (image.getSampleFormat() === FLOAT || image.getBitsPerSample() <= 16);
  const depthM =
    exact && image.getBitsPerSample() <= 32 ? new Float32Array(cells) : new Float64Array(cells);
  // whole rows of blocks, so that none is unpacked twice
  const blockHeight = image.getTileHeight();
  const rows = Math.max(1, Math.floor(CELLS_AT_ONCE / nx / blockHeight)) * blockHeight;
  let at = 0;
  for (let top = y0 - (y0 % blockHeight); top < y1; top += rows) {
    const window = [x0, Math.max(y0, top), x1, Math.min(y1, top + rows)];
    const raw = await image.readRasters({ interleave: true, window });
    if (!('length' in raw)) throw new Error('got no cells, expected one band');
    for (let i = 0; i < raw.length; i++) {
      const value = Number(raw[i]);
      const isNone = !Number.isFinite(value) || (noData !== null && isSame(value, noData));
      depthM[at++] = isNone ? Number.NaN : value * scale + offset;
    }
  }
  return depthM;
}

/** No-data is written as text: a float32 comes back within its last digit. */
function isSame(value: number, noData: number): boolean {
  return value === noData || value === Math.fround(noData);
}

/**
 * Errors where depths cannot be depths. One value deeper than any lake, in all cells that are too deep, is no data that the
 * file does not declare: those cells become NaN, with a notice.
 */
function judgeDepths(depthM: Float32Array | Float64Array, table: string): Finding[] {
  const seen = { known: 0, negative: 0, least: 0, deep: 0, deepest: 0, shallowestDeep: Infinity };
  for (let i = 0; i < depthM.length; i++) {
    const depth = depthM[i];
    if (Number.isNaN(depth)) continue;
    seen.known++;
    if (depth < 0) {
      seen.negative++;
      seen.least = Math.min(seen.least, depth);
    } else if (depth > DEEPEST_LAKE_M) {
      seen.deep++;
      seen.deepest = Math.max(seen.deepest, depth);
      seen.shallowestDeep = Math.min(seen.shallowestDeep, depth);
    }
  }
  const { known, negative, deep, deepest } = seen;
  const fault = (code: string, message: string) => [errorAt({ table }, code, message)];
  if (known === 0) return fault('no-depth', 'no cell holds a depth (all are no-data)');
  const of = (n: number) => `${n} of ${known} cells`;
  if (negative > 0) {
    const message = `${of(negative)} are negative, the least ${plain(seen.least)} (depth in metres, positive down, expected; are these elevations, or no-data that is not declared?)`;
    return fault('negative-depth', message);
  }
  if (deep === 0) return [];
  const lake = `deeper than any lake (at most ${formatCount(DEEPEST_LAKE_M)} m)`;
  if (deepest !== seen.shallowestDeep || deep === known) {
    const message = `${of(deep)} are ${lake}, the deepest ${plain(deepest)} (depth in metres expected; are these elevations, or no-data that is not declared?)`;
    return fault('too-deep', message);
  }
  for (let i = 0; i < depthM.length; i++) if (depthM[i] === deepest) depthM[i] = Number.NaN;
  const message = `${of(deep)} hold ${plain(deepest)}, ${lake}: taken as no data, which the file does not declare`;
  return [noticeAt({ table }, 'no-data-undeclared', message)];
}
