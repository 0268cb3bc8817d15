/** Waypoints, depths and substrates of other people → the survey's start and end places, depth map and substrate map. */

export { type AgainstMap, diverAgainstMap } from './against-map.ts';
export { depthMap } from './depth.ts';
export type { MadeMap } from './depth-final.ts';
export { substrateMap } from './substrate.ts';
export { matchWaypoints } from './waypoints.ts';
