/** Maps that others made: taken apart, read, placed on the globe, and the lake's outline out of them. */

export { lakeOutline } from './outline.ts';
export { placeLayers } from './place.ts';
export { readMapFiles } from './read.ts';
export { unpack } from './unpack.ts';
export { zeroContours } from './zero-contours.ts';
