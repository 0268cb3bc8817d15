/** A row of transects.csv with what a test says of it. */

import type { Transect } from '../../shared/survey.ts';

export function madeUpTransect(changed: Partial<Transect> = {}): Transect {
  return {
    transect: 'T01',
    date: '2026-07-01',
    design: 'belt',
    primary: 'Ann',
    secondary: 'Ben',
    startLat: 45,
    startLon: -93,
    endLat: null,
    endLon: null,
    bearingDeg: 90,
    bearingRef: 'true',
    lengthM: 30,
    widthM: 1,
    clarityM: null,
    stop: null,
    setupMin: null,
    habitatMin: null,
    searchMin: null,
    notes: null,
    extra: {},
    row: 2,
    ...changed,
  };
}
