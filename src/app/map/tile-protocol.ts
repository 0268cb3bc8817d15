/** How the map asks for the pictures of the user's own tile file: by addresses of a scheme that no network knows. */

import { addProtocol, removeProtocol } from 'maplibre-gl';
import type { TileFile } from './tile-file.ts';

const SCHEME = 'own-map';
let fileCount = 0;
/** A picture of one pixel that lets everything through (a GIF of 43 bytes, by hand). */
const NO_PICTURE = Uint8Array.from(
  atob('R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7'),
  (c) => c.charCodeAt(0),
);

/** The address of the file's tiles from now on; those of an earlier file are forgotten. */
export function servedFromFile(tiles: TileFile): string {
  removeProtocol(SCHEME);
  addProtocol(SCHEME, async ({ url }) => {
    const [z, x, y] = url.split('/').slice(-3).map(Number) as [number, number, number];
    return { data: (await tiles.tile(z, x, y)) ?? NO_PICTURE.buffer };
  });
  fileCount += 1; // another address, so that no tile of an earlier file is taken for one of this
  return `${SCHEME}://${fileCount}/{z}/{x}/{y}`;
}
