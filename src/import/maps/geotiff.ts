/** GeoTIFFs of one band into rasters in their own coordinates. (TIFF 6.0; OGC 19-008r4 GeoTIFF 1.1.) */

import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import { type GeoKeys, readCrs, verticalUnit } from '../../../shared/geokeys.ts';
import type { GivenCrs, GivenFile, RawRaster } from '../../../shared/importing.ts';
import { readDirectory, sizeFault } from '../../../shared/raster-size.ts';
import { PACKINGS } from '../../../shared/raster-unpack.ts';
import { formatCount } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import '../raster-decoders.ts';
import { byCode } from './crs.ts';

const MOST_CELLS = 50_000_000;
const USER_DEFINED = 32767;
const PROJECTED = 1;
const PIXEL_IS_POINT = 2;
const LONGEST_REASON = 160;

export function isTiff(bytes: Uint8Array): boolean {
  const [a, b, c, d] = bytes;
  const little = a === 0x49 && b === 0x49 && (c === 42 || c === 43) && d === 0;
  return little || (a === 0x4d && b === 0x4d && c === 0 && (d === 42 || d === 43));
}

export async function readGeoTiff(file: GivenFile, findings: Finding[]): Promise<RawRaster | null> {
  const refuse = (message: string): null => {
    findings.push(errorAt({ table: file.name }, 'unreadable-raster', message));
    return null;
  };
  const directory = readDirectory(file.bytes);
  if ('wrong' in directory) return refuse(`not a GeoTIFF that can be read (${directory.wrong})`);
  try {
    const tiff = await fromArrayBuffer(new Uint8Array(file.bytes).buffer);
    const image = await tiff.getImage(0);
    const wrong = faultOf(image, directory.blocks);
    return wrong === null ? await rasterOf(image, file, findings, refuse) : refuse(wrong);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    const own = /undefined|\bNaN\b|\bnull\b|\[object/.test(reason)
      ? 'its tags contradict one another'
      : reason;
    return refuse(`not a GeoTIFF that can be read (${visible(own).slice(0, LONGEST_REASON)})`);
  }
}

function faultOf(image: GeoTIFFImage, blocks: number): string | null {
  const [width, height] = [image.getWidth(), image.getHeight()];
  const size = {
    width,
    height,
    blocks,
    blockWidth: image.getTileWidth(),
    blockHeight: image.getTileHeight(),
    bits: image.getBitsPerSample(0),
  };
  const wrong = sizeFault(size);
  if (wrong !== null) return `not a GeoTIFF that can be read (${wrong})`;
  const bands: unknown = image.getSamplesPerPixel();
  if (bands !== 1)
    return `${typeof bands === 'number' ? bands : 'no number of'} bands (a single band of depths expected; a picture of a map has none)`;
  const packing = Number(image.getFileDirectory().getValue('Compression') ?? 1);
  if (!PACKINGS.has(packing))
    return `packed in a way that is not read, ${packing} (deflate, LZW, PackBits or none expected; GIS software writes it anew)`;
  if (width * height > MOST_CELLS)
    return `${formatCount(width)} × ${formatCount(height)} cells (at most ${MOST_CELLS / 1e6} million expected; GIS software cuts out the lake)`;
  return null;
}

async function rasterOf(
  image: GeoTIFFImage,
  file: GivenFile,
  findings: Finding[],
  refuse: (message: string) => null,
): Promise<RawRaster | null> {
  const keys: GeoKeys | null = image.getGeoKeys();
  const place = placeOf(image, keys?.GTRasterTypeGeoKey === PIXEL_IS_POINT);
  if (typeof place === 'string') return refuse(place);
  const meta = await image.getGDALMetadata(0);
  const scale = Number(meta?.SCALE ?? 1);
  const offset = Number(meta?.OFFSET ?? 0);
  const noData = image.getGDALNoData();
  const raw = await image.readRasters({ interleave: true });
  if (!('length' in raw)) throw new Error('got no cells, expected one band');
  const values = new Float32Array(raw.length);
  let known = 0;
  for (let i = 0; i < raw.length; i++) {
    const value = Number(raw[i]);
    // no-data is written as text: a float32 comes back within its last digit
    const isNone =
      !Number.isFinite(value) ||
      (noData !== null && (value === noData || value === Math.fround(noData)));
    values[i] = isNone ? Number.NaN : value * scale + offset;
    if (!isNone) known++;
  }
  if (known === 0)
    findings.push(noticeAt({ table: file.name }, 'empty-layer', 'no cell holds a value'));
  const { crs, remarks } = crsOf(keys, file.name);
  const unit = unitOf(keys, meta?.UNITTYPE);
  return {
    file: file.name,
    crs,
    width: image.getWidth(),
    height: image.getHeight(),
    ...place,
    values,
    ...(unit === null ? {} : { unit }),
    original: file.bytes,
    remarks,
  };
}

/** By a code of the list, else by the parameters of the keys; else not at all, which is told. */
function crsOf(keys: GeoKeys | null, file: string): { crs: GivenCrs; remarks: string[] } {
  const isProjected = keys?.GTModelTypeGeoKey === PROJECTED;
  const code = keyOf(keys, isProjected ? 'ProjectedCSTypeGeoKey' : 'GeographicTypeGeoKey');
  if (code !== null && 'system' in byCode(code))
    return { crs: { kind: 'epsg', code }, remarks: [] };
  const read = readCrs(keys);
  if ('crs' in read) return { crs: { kind: 'proj', text: read.crs }, remarks: [] };
  if (code !== null) return { crs: { kind: 'epsg', code }, remarks: [] };
  if (read.refused === null) return { crs: { kind: 'none' }, remarks: [] };
  const told = `${file} is in ${visible(read.refused)}, which is not known here: its coordinate system is taken as not named`;
  return { crs: { kind: 'none' }, remarks: [told] };
}

function keyOf(keys: GeoKeys | null, name: string): number | null {
  const value = keys?.[name];
  return typeof value === 'number' && value !== USER_DEFINED && value > 0 ? value : null;
}

function unitOf(keys: GeoKeys | null, written: unknown): string | null {
  const unit = verticalUnit(keys);
  if (unit !== null) return unit === 'feet' ? 'ft' : unit;
  if (typeof written !== 'string' || written.trim() === '') return null;
  if (/^(m|met(re|er)s?)$/i.test(written.trim())) return 'm';
  return /^(ft|feet|foot|us)/i.test(written.trim()) ? 'ft' : visible(written.trim());
}

/** Outer corner of the first cell and the steps; a sentence where the raster has no place or is turned. */
function placeOf(
  image: GeoTIFFImage,
  isPoint: boolean,
): Pick<RawRaster, 'corner' | 'step'> | string {
  const directory = image.getFileDirectory();
  const scale: ArrayLike<number> | undefined = directory.getValue('ModelPixelScale');
  const ties: ArrayLike<number> | undefined = directory.getValue('ModelTiepoint');
  const matrix: ArrayLike<number> | undefined = directory.getValue('ModelTransformation');
  // where the tie is the middle of a cell its corner lies half a cell before it
  const half = isPoint ? 0.5 : 0;
  let place: number[];
  if (scale !== undefined && ties !== undefined && ties.length === 6)
    place = [
      ties[3] - (ties[0] + half) * scale[0],
      ties[4] + (ties[1] + half) * scale[1],
      scale[0],
      -scale[1],
    ];
  else if (matrix !== undefined && matrix.length === 16) {
    if (matrix[1] !== 0 || matrix[4] !== 0)
      return 'the raster is turned against its coordinates (north up expected)';
    place = [matrix[3] - half * matrix[0], matrix[7] - half * matrix[5], matrix[0], matrix[5]];
  } else
    return 'the raster has no place: no origin and cell size in its keys (a GeoTIFF expected, a picture has none)';
  const [x, y, stepX, stepY] = place;
  if (!place.every(Number.isFinite) || stepX <= 0 || stepY === 0)
    return 'the raster has no usable origin and cell size';
  return { corner: [x, y], step: [stepX, stepY] };
}
