/**
 * The projections that the application is built with, by proj4's names: the lake's plane and those of depth rasters. What
 * else proj4 knows is left out of what a browser has to load.
 */
export const PROJECTIONS = [
  'laea',
  'utm',
  'etmerc',
  'tmerc',
  'merc',
  'lcc',
  'aea',
  'longlat',
  'omerc',
  'somerc',
  'sterea',
  'stere',
  'krovak',
  'cass',
  'poly',
  'eqdc',
  'eqc',
  'nzmg',
];
