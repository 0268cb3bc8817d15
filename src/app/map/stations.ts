/** What the one map shows at each station. */

import type { Station } from '../contract.ts';

/** At every station: the lake, its transects from afar and the transect that is pointed at. */
const ALWAYS = [
  'paper',
  'water',
  'land',
  'shore',
  'contours',
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
const SURFACE = ['hatch', 'density', 'edge'];
const RESIDUALS = ['transect-flag', 'residual-lines', 'residual-points'];

const OWN: Record<Station, readonly string[]> = {
  survey: [
    'patterns',
    'borders',
    'bed-focus-fill',
    'transect-detected',
    'transect-names',
    'findings',
    'finding-numbers',
    'finding-focus',
  ],
  transects: [
    'patterns',
    'borders',
    'bed-focus-fill',
    'transect-detected',
    'transect-names',
    ...ALONG_TRANSECTS,
    ...RESIDUALS,
  ],
  detection: [
    'bed-focus-fill',
    'counts-present',
    'counts-detected',
    'transect-names',
    ...ALONG_TRANSECTS,
  ],
  density: [...SURFACE, 'departures', 'transect-names', ...ALONG_TRANSECTS],
  lake: [...SURFACE, 'transect-detected', 'treatments', 'treatment-names', ...ALONG_TRANSECTS],
};

/** Names of the layers that are seen at a station. */
export function layersAt(station: Station): ReadonlySet<string> {
  return new Set([...ALWAYS, ...OWN[station]]);
}
