/** Bytes of depth.tif → a raster of depth in m, or what is wrong with it. */

import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { errorAt, type Finding } from '../../shared/findings.ts';
import type { DepthRaster } from '../../shared/survey.ts';
import { plain, visible } from '../../shared/words.ts';
import { readCrs, verticalUnit } from './geokeys.ts';

const PIXEL_IS_POINT = 2;
const SYSTEMS =
  'WGS 84, NAD 83 or ETRS 89, geographic or UTM; Web Mercator; or keys for transverse Mercator, Lambert conic, ' +
  'Lambert azimuthal equal-area or Albers';

export type RasterRead =
  | { raster: DepthRaster; findings: [] }
  | { raster: null; findings: Finding[] };

/** One band, north up, depth positive down, in one of the systems of geokeys.ts. Never throws. */
export async function readDepthRaster(table: string, bytes: Uint8Array): Promise<RasterRead> {
  const refuse = (code: string, message: string): RasterRead => ({
    raster: null,
    findings: [errorAt({ table }, code, message)],
  });
  if (bytes.length === 0) return refuse('file-empty', 'the file is empty');
  try {
    // a copy: the reader wants a buffer that begins with the file (slice of a Node Buffer would not copy)
    const tiff = await fromArrayBuffer(new Uint8Array(bytes).buffer);
    const image = await tiff.getImage(0);
    return await readImage(image, refuse);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return refuse('unreadable-raster', `not a GeoTIFF that can be read (${reason})`);
  }
}

async function readImage(
  image: GeoTIFFImage,
  refuse: (code: string, message: string) => RasterRead,
): Promise<RasterRead> {
  const bands = image.getSamplesPerPixel();
  if (bands !== 1) {
    return refuse('several-bands', `${bands} bands (a single band of depth in metres expected)`);
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
  const [width, height] = [image.getWidth(), image.getHeight()];
  const depthM = await readDepths(image);
  const fault = judgeDepths(depthM);
  if (fault !== null) return refuse(fault.code, fault.message);
  return {
    raster: { kind: 'raster', width, height, depthM, ...place, crs: read.crs },
    findings: [],
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
    const [stepX, stepY] = [scale[0]!, -scale[1]!];
    return finitePlace(
      ties[3]! + (half - ties[0]!) * stepX,
      ties[4]! + (half - ties[1]!) * stepY,
      stepX,
      stepY,
    );
  }
  if (matrix !== undefined && matrix.length === 16) {
    if (matrix[1] !== 0 || matrix[4] !== 0) {
      return 'the raster is turned against its coordinates (north up expected)';
    }
    const [stepX, stepY] = [matrix[0]!, matrix[5]!];
    return finitePlace(matrix[3]! + half * stepX, matrix[7]! + half * stepY, stepX, stepY);
  }
  return 'the raster has no single origin and cell size (north up, with both, expected)';
}

function finitePlace(originX: number, originY: number, stepX: number, stepY: number) {
  const finite = [originX, originY, stepX, stepY].every(Number.isFinite);
  if (!finite || stepX === 0 || stepY === 0) {
    return `origin ${originX}, ${originY} and steps ${stepX}, ${stepY} (finite and not 0 expected)`;
  }
  return { originX, originY, stepX, stepY };
}

/** Depths with the file's scale and offset applied, NaN where it has no data. */
async function readDepths(image: GeoTIFFImage): Promise<Float32Array | Float64Array> {
  const raw = (await image.readRasters({ interleave: true })) as unknown as ArrayLike<number>;
  const noData = image.getGDALNoData();
  const meta = await image.getGDALMetadata(0);
  const scale = Number(meta?.SCALE ?? 1);
  const offset = Number(meta?.OFFSET ?? 0);
  const depthM = new Float64Array(raw.length);
  for (let i = 0; i < raw.length; i++) {
    const value = raw[i]!;
    const isNone = !Number.isFinite(value) || (noData !== null && isSame(value, noData));
    depthM[i] = isNone ? Number.NaN : value * scale + offset;
  }
  return depthM;
}

/** No-data is written as text: a float32 comes back within its last digit. */
function isSame(value: number, noData: number): boolean {
  return value === noData || value === Math.fround(noData);
}

function judgeDepths(depthM: ArrayLike<number>): { code: string; message: string } | null {
  let negative = 0;
  let least = 0;
  let known = 0;
  for (let i = 0; i < depthM.length; i++) {
    const depth = depthM[i]!;
    if (Number.isNaN(depth)) continue;
    known++;
    if (depth >= 0) continue;
    negative++;
    least = Math.min(least, depth);
  }
  if (known === 0) return { code: 'no-depth', message: 'no cell holds a depth (all are no-data)' };
  if (negative === 0) return null;
  const cells = `${negative} of ${known} cells are negative, the least ${plain(least)}`;
  const message = `${cells} (depth in metres, positive down, expected; are these elevations, or no-data that is not declared?)`;
  return { code: 'negative-depth', message };
}
