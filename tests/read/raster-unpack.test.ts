/** Packed blocks of rasters: as the standard says, as GDAL packs them, and never beyond their size. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../models/numbers/random.ts';
import { unpackDeflate, unpackLzw, unpackPackbits } from '../../shared/raster-unpack.ts';
import { readDepthRaster } from '../../src/read/geotiff.ts';
import { testFolder } from '../helpers/folder.ts';
import { hasGdal, runTool } from '../helpers/gdal.ts';

/** Codes of 9 bits, the first bit first. */
function nineBits(...codes: number[]): Uint8Array {
  const bits = codes.map((code) => code.toString(2).padStart(9, '0')).join('');
  return Uint8Array.from(bits.match(/.{1,8}/g) ?? [], (byte) =>
    Number.parseInt(byte.padEnd(8, '0'), 2),
  );
}

describe('a packed block', () => {
  it('LZW: the example of TIFF 6.0, section 13', () => {
    const packed = nineBits(256, 7, 258, 8, 8, 258, 6, 6, 257);
    expect([...unpackLzw(packed, 100)]).toEqual([7, 7, 7, 8, 8, 7, 7, 6, 6]);
    expect([...unpackLzw(packed, 4)]).toEqual([7, 7, 7, 8]);
    expect(() => unpackLzw(nineBits(256, 258), 100)).toThrow('before it is known');
    expect(() => unpackLzw(nineBits(256, 7, 300), 100)).toThrow('before it is known');
  });

  it('PackBits: the example of Apple’s Technical Note 1023', () => {
    const packed = [0xfe, 0xaa, 2, 0x80, 0, 0x2a, 0xfd, 0xaa, 3, 0x80, 0, 0x2a, 0x22, 0xf7, 0xaa];
    const hex = 'aaaaaa80002aaaaaaaaa80002a22aaaaaaaaaaaaaaaaaaaa';
    const unpacked = unpackPackbits(Uint8Array.from(packed), 100);
    expect(Buffer.from(unpacked).toString('hex')).toBe(hex);
    expect(unpackPackbits(Uint8Array.from(packed), 15)).toHaveLength(15);
    expect(unpackPackbits(Uint8Array.from([0x80, 5, 1, 2]), 100)).toHaveLength(2);
  });

  it('deflate: as another implementation packs it, and no further than asked for', async () => {
    const plain = Uint8Array.from({ length: 200_000 }, (_, i) => (i * i) % 251);
    expect(await unpackDeflate(zlibSync(plain), plain.length)).toEqual(plain);
    const bomb = zlibSync(new Uint8Array(5_000_000));
    expect(await unpackDeflate(bomb, 1000)).toEqual(new Uint8Array(1000));
    await expect(unpackDeflate(Uint8Array.from([1, 2, 3]), 1000)).rejects.toThrow();
  });
});

describe.skipIf(!hasGdal)('a raster packed by GDAL', () => {
  const folder = testFolder();
  const [width, height] = [211, 130];
  const random = seeded(7);
  const rows = Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) =>
      row < height / 2 ? random.integer(1000) : column % 40,
    ),
  );
  writeFileSync(
    join(folder, 'noise.asc'),
    `ncols ${width}\nnrows ${height}\nxllcorner 450000\nyllcorner 4975000\ncellsize 1\n${rows.map((r) => r.join(' ')).join('\n')}\n`,
  );

  it.each([
    ['LZW', []],
    ['LZW', ['-co', 'PREDICTOR=2']],
    ['PACKBITS', []],
    ['DEFLATE', ['-co', 'PREDICTOR=2', '-co', 'TILED=YES']],
  ])('%s %s', async (packing, more) => {
    const target = join(folder, `${packing}${more.length}.tif`);
    runTool('gdal_translate', [
      ...['-q', '-ot', 'UInt16', '-a_srs', 'EPSG:32615', '-co', `COMPRESS=${packing}`],
      ...[...more, join(folder, 'noise.asc'), target],
    ]);
    const { raster, findings } = await readDepthRaster('depth.tif', readFileSync(target), []);
    expect(findings).toEqual([]);
    expect([...(raster?.depthM ?? [])]).toEqual(rows.flat());
  });

  it('in a way that is not read is refused in words', async () => {
    const target = join(folder, 'jpeg.tif');
    runTool('gdal_translate', [
      ...['-q', '-ot', 'Byte', '-a_srs', 'EPSG:32615', '-co', 'COMPRESS=JPEG'],
      ...['-scale', '0', '1000', join(folder, 'noise.asc'), target],
    ]);
    const { raster, findings } = await readDepthRaster('depth.tif', readFileSync(target), []);
    expect(raster).toBeNull();
    expect(findings.map((f) => f.message)).toEqual([
      'not a GeoTIFF that can be read (packed in a way that is not read, 7 (deflate, LZW, PackBits or none expected; GIS software writes it anew))',
    ]);
  });
});
