/** What the one map shows at each station. */

import type { Station } from '../contract.ts';

/** At every station: the lake, its ropes from afar and the rope that is pointed at. */
const ALWAYS = [
  'paper',
  'water',
  'land',
  'shore',
  'contours',
  'bed-focus-line',
  'rope-edge',
  'rope-line',
  'rope-focus',
  'rope-halo',
  'rope-mark',
];
const ON_THE_ROPE = ['strip-ground', 'strips', 'strip-edges', 'ticks', 'tick-labels', 'clusters'];
const SURFACE = ['hatch', 'density', 'edge'];
const RESIDUALS = ['rope-flag', 'residual-lines', 'residual-points'];

const OWN: Record<Station, readonly string[]> = {
  survey: [
    'patterns',
    'borders',
    'bed-focus-fill',
    'rope-found',
    'rope-names',
    'faults',
    'fault-numbers',
    'fault-focus',
  ],
  transects: [
    'patterns',
    'borders',
    'bed-focus-fill',
    'rope-found',
    'rope-names',
    ...ON_THE_ROPE,
    ...RESIDUALS,
  ],
  detection: ['bed-focus-fill', 'counts-there', 'counts-found', 'rope-names', ...ON_THE_ROPE],
  density: [...SURFACE, 'departures', 'rope-names', ...ON_THE_ROPE],
  lake: [...SURFACE, 'rope-found', 'treatments', 'treatment-names', ...ON_THE_ROPE],
};

/** Names of the layers that are seen at a station. */
export function layersAt(station: Station): ReadonlySet<string> {
  return new Set([...ALWAYS, ...OWN[station]]);
}
