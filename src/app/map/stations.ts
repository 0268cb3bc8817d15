/** What the one map shows at each station. */

import type { Station } from '../contract.ts';
import { AREA_LAYERS } from './layers-areas.ts';
import { PLAN_LAYERS } from './layers-plan.ts';

/** At every station: the lake, its transects from afar and the transect that is pointed at. */
const ALWAYS = [
  'paper',
  'water',
  'land',
  'shore',
  'bed-focus-line',
  'transect-edge',
  'transect-line',
  'transect-focus',
  'transect-halo',
  'transect-mark',
];
const ALONG_TRANSECTS = [
  'strip-ground',
  'strips',
  'strip-edges',
  'ticks',
  'tick-labels',
  'clusters',
];
const SURFACE = ['hatch', 'density', 'edge', 'contours-over-density'];
const BED = ['tints', 'patterns', 'borders', 'bed-focus-fill', 'contours', 'contour-labels'];
const RESIDUALS = ['transect-flag', 'residual-lines', 'residual-points'];

const PLANNED = ['planned-line', 'planned-mark'];

const OWN: Record<Station, readonly string[]> = {
  survey: [
    ...BED,
    'transect-detected',
    'transect-names',
    'mark-room',
    ...PLANNED,
    'findings',
    'finding-numbers',
    'finding-focus',
  ],
  transects: [
    ...BED,
    'transect-detected',
    'transect-names',
    'mark-room',
    ...PLANNED,
    ...ALONG_TRANSECTS,
    ...RESIDUALS,
  ],
  detection: [
    'bed-focus-fill',
    'contours',
    'contour-labels',
    'counts-present',
    'counts-detected',
    'count-names',
    'count-room',
    ...ALONG_TRANSECTS,
  ],
  density: [...SURFACE, 'departures', 'transect-names', 'mark-room', ...ALONG_TRANSECTS],
  lake: [
    'mark-room',
    ...SURFACE,
    'transect-detected',
    'treatments',
    'treatment-focus',
    'treatment-names',
    ...ALONG_TRANSECTS,
  ],
  next: ['edge', 'contours', 'contour-labels', 'transect-detected', ...PLAN_LAYERS],
  change: [
    'edge',
    'contours',
    'contour-labels',
    'transect-detected',
    'treatments',
    'treatment-focus',
    'treatment-names',
  ],
  areas: [...SURFACE, 'transect-detected', ...ALONG_TRANSECTS, ...AREA_LAYERS],
};

/** Names of the layers that are seen at a station. */
export function layersAt(station: Station): ReadonlySet<string> {
  return new Set([...ALWAYS, ...OWN[station]]);
}

/** The bed is painted with the density there. */
export function showsSurface(station: Station): boolean {
  return OWN[station].includes('density');
}
