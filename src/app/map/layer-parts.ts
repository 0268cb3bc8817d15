/** What the layers of the map's style are put together from. */

import type { ExpressionFilterSpecification, ExpressionSpecification } from 'maplibre-gl';
import type { Ink } from './ink.ts';

/**
 * GeoJSON sources; each is filled by `setData`. What changes together is one source, its parts told apart by `kind`: every
 * change of source between layers costs another pass over the screen.
 */
export const SHAPE_SOURCES = [
  'lake',
  'edge',
  'transects',
  'marks',
  'tickLabels',
  'clusters',
  'residualPoints',
  'counts',
  'departures',
  'findings',
  'areas',
] as const;
export type ShapeSource = (typeof SHAPE_SOURCES)[number];

/** Zooms at which transects change their looks: a true line instead of a mark, clusters and segments, half-metre marks. */
export interface TransectZooms {
  line: number;
  clusters: number;
  ticks: number;
  /** at which the largest disc of counted clusters has its greatest radius */
  counts: number;
}

/** Matches no feature. */
export const NOTHING: ExpressionSpecification = ['==', ['get', 'kind'], 'nothing'];

/** The parts of one kind in a source of several. */
export const of = (
  source: ShapeSource,
  kind: string,
): { source: string; filter: ExpressionSpecification } => ({
  source,
  filter: ['==', ['get', 'kind'], kind],
});

/** Patches of one label, a mixture's classes in the order of the survey's list. */
export function onBed(label: string): ExpressionFilterSpecification {
  return ['all', ['==', ['get', 'kind'], 'substrate'], ['==', ['get', 'substrate'], label]];
}

/** Marks are smaller where many of them lie on few pixels. */
export const markSize = (zooms: TransectZooms, full: number): ExpressionSpecification => [
  'interpolate',
  ['linear'],
  ['zoom'],
  zooms.line - 3,
  full * 0.55,
  zooms.line - 1,
  full,
];

/** Greatest and least radius of a disc of counted clusters. */
export const LARGEST_COUNT_PX = 34;
const LEAST_COUNT_PX = 2;
/** So many zooms below its greatest a disc still shrinks with the map. */
const COUNT_ZOOMS = 8;

/**
 * Pixels of a share of the largest disc, growing with the map up to its greatest; 0 for a share of 0.
 * @param per in place of pixels, so much a pixel
 * @param plus and so much more, also for 0
 */
export function countRadius(
  share: ExpressionSpecification,
  zooms: TransectZooms,
  per = 1,
  plus = 0,
): ExpressionSpecification {
  const stops = Array.from({ length: COUNT_ZOOMS + 1 }, (_, i) => i - COUNT_ZOOMS).flatMap(
    (step): [number, ExpressionSpecification] => {
      const radius: ExpressionSpecification = [
        'max',
        LEAST_COUNT_PX,
        ['*', LARGEST_COUNT_PX * 2 ** step, share],
      ];
      return [
        zooms.counts + step,
        ['case', ['>', share, 0], ['+', plus, ['*', per, radius]], plus],
      ];
    },
  );
  return ['interpolate', ['exponential', 2], ['zoom'], ...stops] as ExpressionSpecification;
}

export const focused = (yes: number, no: number): ExpressionSpecification => [
  'case',
  ['boolean', ['feature-state', 'focus'], false],
  yes,
  no,
];

/** The page's own font, quoted because of its digit: characters are drawn by the browser, no glyphs are fetched. */
const FONT = ['"Source Sans 3 Variable"'];

export function text(field: ExpressionSpecification, size: number) {
  return {
    'text-field': field,
    'text-font': FONT,
    'text-size': size,
    'text-padding': 4,
  } as const;
}

export function textPaint(ink: Ink) {
  return { 'text-color': ink.ink, 'text-halo-color': ink.panel, 'text-halo-width': 1.6 } as const;
}
