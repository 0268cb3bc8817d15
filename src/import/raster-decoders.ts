/** Blocks of rasters are unpacked by shared/raster-unpack.ts in place of the reader's own code, which unpacks first and looks then. */

import { addDecoder, BaseDecoder } from 'geotiff';
import { type Packing, UNPACKERS } from '../../shared/raster-unpack.ts';

for (const { codes, unpack } of UNPACKERS)
  addDecoder(codes.slice(), async () => blockDecoder(unpack));

/** Several bands are refused before any block is unpacked: a block holds one. */
function blockDecoder(unpack: Packing['unpack']): typeof BaseDecoder {
  return class extends BaseDecoder {
    override async decodeBlock(buffer: ArrayBufferLike): Promise<ArrayBufferLike> {
      const { tileWidth, tileHeight, bitsPerSample } = this.parameters;
      const bits = typeof bitsPerSample === 'number' ? bitsPerSample : bitsPerSample[0];
      const most = tileWidth * tileHeight * Math.ceil(bits / 8);
      return (await unpack(new Uint8Array(buffer), most)).slice().buffer;
    }
  };
}
