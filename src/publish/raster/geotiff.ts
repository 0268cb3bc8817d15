/**
 * Writes a float32 GeoTIFF in the lake's plane, readable by any GIS: bands one after the other, uncompressed, no-data NaN,
 * the projection's parameters in the GeoKeys. (TIFF 6.0, Adobe 1992; OGC 19-008r4 GeoTIFF 1.1; GDAL_METADATA and
 * GDAL_NODATA after GDAL's GTiff driver.) General writers drop user-defined projection keys or take 12 s for a large lake.
 */

import type { GridFrame } from '../../../shared/survey.ts';
import { directoryBytes, long, short, writeDirectory } from '../../../shared/tiff-tags.ts';
import {
  type Band,
  type Centre,
  cellFields,
  geoFields,
  nameFields,
  requireBands,
  requireRoom,
} from './fields.ts';

/** A strip holds about this many bytes, so that a reader can fetch part of a large lake. */
const STRIP_BYTES = 1 << 20;

const HEADER_BYTES = 8;

/**
 * The file's bytes. Throws when a band's length is not that of the frame, or when the file would pass 4 GB.
 */
export function writeGeoTiff(frame: GridFrame, centre: Centre, bands: Band[]): Uint8Array {
  requireBands(frame, bands);
  const cells = frame.nx * frame.ny;
  const rowBytes = frame.nx * 4;
  const rowsPerStrip = Math.max(1, Math.min(frame.ny, Math.floor(STRIP_BYTES / rowBytes)));
  const strips = stripLayout(frame, rowsPerStrip, bands.length);
  const fields = [
    ...cellFields(frame.nx, frame.ny, bands.length),
    ...nameFields(bands),
    ...geoFields(frame, centre),
    short(259, [1]), // Compression: none
    long(273, strips.offsets), // StripOffsets
    long(278, [rowsPerStrip]), // RowsPerStrip
    long(279, strips.byteCounts), // StripByteCounts
  ];
  const dataStart = Math.ceil((HEADER_BYTES + directoryBytes(fields)) / 4) * 4;
  const total = dataStart + bands.length * cells * 4;
  requireRoom(total);
  for (let i = 0; i < strips.offsets.length; i++) strips.offsets[i] += dataStart;

  const buffer = new ArrayBuffer(total);
  const view = new DataView(buffer);
  const little = new Uint8Array(new Float32Array([1]).buffer)[3] === 0x3f; // as this machine has its floats
  view.setUint16(0, little ? 0x4949 : 0x4d4d);
  view.setUint16(2, 42, little);
  view.setUint32(4, HEADER_BYTES, little);
  writeDirectory(view, HEADER_BYTES, fields, { next: 0, little });
  bands.forEach((band, b) => {
    new Float32Array(buffer, dataStart + b * cells * 4, cells).set(band.values);
  });
  return new Uint8Array(buffer);
}

/** Strips of one band lie on end, bands too; offsets are counted from the first cell's byte. */
function stripLayout(frame: GridFrame, rowsPerStrip: number, bands: number) {
  const offsets: number[] = [];
  const byteCounts: number[] = [];
  for (let band = 0; band < bands; band++) {
    for (let row = 0; row < frame.ny; row += rowsPerStrip) {
      offsets.push((band * frame.ny + row) * frame.nx * 4);
      byteCounts.push(Math.min(rowsPerStrip, frame.ny - row) * frame.nx * 4);
    }
  }
  return { offsets, byteCounts };
}
