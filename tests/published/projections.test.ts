/** Published and independently computed values of the projections that we use proj4 for. */

import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';

describe('transverse Mercator', () => {
  it('meets the worked example of the EPSG guidance', () => {
    // IOGP Guidance Note 7-2, Transverse Mercator, OSGB36 / British National Grid, with k0 as printed there
    const grid =
      '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996013 +x_0=400000 +y_0=-100000 +a=6377563.396 +rf=299.32496 +units=m';
    const geographic = '+proj=longlat +a=6377563.396 +rf=299.32496';
    const [e, n] = proj4(geographic, grid, [0.5, 50.5]) as number[];
    expect(Math.abs(e! - 577274.99)).toBeLessThan(0.006); // printed to 0.01
    expect(Math.abs(n! - 69740.5)).toBeLessThan(0.006);
  });

  it.each([
    // cs2cs of PROJ 9.1.1 and GeoConvert of GeographicLib 2.1.2, which agree (scripts/geodesy.sh): lat, lon, zone, E, N
    [47.6, 9.4, '+zone=32', 530068.100331, 5271920.949102],
    [44.93, -93.57, '+zone=15', 455020.610214, 4975332.349792],
    [44.476, -73.25, '+zone=18', 639178.551764, 4926232.694722],
    [-38.8, 175.9, '+zone=60 +south', 404480.227664, 5704842.663021],
    [33.85, -96.65, '+zone=14', 717421.43274, 3748008.955661],
    [45, -90.0000001, '+zone=15', 736446.01822, 4987329.504407],
  ])('%d, %d in UTM %s', (lat, lon, zone, easting, northing) => {
    const [e, n] = proj4(`+proj=utm ${zone} +datum=WGS84 +units=m`).forward([lon, lat]) as number[];
    // both sides carry series good to nanometres; 1 mm is far below any waypoint
    expect(Math.abs(e! - easting)).toBeLessThan(0.001);
    expect(Math.abs(n! - northing)).toBeLessThan(0.001);
  });
});
