/** The bed in the parts that a GIS shows: what only open files ask for. */

export { patchNumbers } from './patches.ts';
export { strataShapes } from './strata.ts';
