/** The lake from the bottom up: water, hatch and patterns of the bed, contours, the surveyed edge, land and shore. */

import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl';
import { OUTLINE_SHARE, WATER } from '../../present/ramp.ts';
import { substrateTint } from '../../present/substrate-tint.ts';
import type { BedLabel } from './features/bed-label.ts';
import type { Ink } from './ink.ts';
import { NOTHING, of, type TransectZooms, text, textPaint } from './layer-parts.ts';

/** Each label of the bed in its grey. */
export function tints(
  labels: readonly BedLabel[],
  classes: readonly string[],
  ink: Ink,
): ExpressionSpecification {
  const dark = ink.water === WATER.dark;
  return labels.reduce<ExpressionSpecification>(
    (others, { label, classes: own }) => [
      'case',
      ['==', ['get', 'substrate'], label],
      substrateTint(own, classes, dark),
      others,
    ],
    ['literal', ink.water] as ExpressionSpecification,
  );
}

/** Patterns come in so many zooms before transects are true lines, labels of contours so many. */
const PATTERNS_BEFORE = 1;
const LABELS_BEFORE = 2.5;

/** From nothing to `full` over one zoom. */
function appearing(zoom: number, full: number): ExpressionSpecification {
  return ['interpolate', ['linear'], ['zoom'], zoom, 0, zoom + 1, full];
}

/** Few contours from afar, twice as many nearer by, then all. */
function byRank(zooms: TransectZooms, full: number): ExpressionSpecification {
  const upTo = (rank: number): ExpressionSpecification => [
    'case',
    ['<=', ['get', 'rank'], rank],
    full,
    0,
  ];
  return ['step', ['zoom'], upTo(0), zooms.line - 0.5, upTo(1), zooms.line + 1, full];
}

export function bedLayers(ink: Ink, zooms: TransectZooms): LayerSpecification[] {
  return [
    { id: 'paper', type: 'background', paint: { 'background-color': ink.paper } },
    {
      id: 'water',
      type: 'fill',
      ...of('lake', 'water'),
      paint: { 'fill-antialias': false, 'fill-color': ink.water },
    },
    {
      id: 'hatch',
      type: 'fill',
      ...of('lake', 'substrate'),
      paint: { 'fill-antialias': false, 'fill-pattern': 'hatch' },
    },
    {
      id: 'edge',
      type: 'line',
      source: 'edge',
      layout: { 'line-join': 'round' },
      paint: { 'line-color': ink.ink, 'line-width': 1.1, 'line-opacity': OUTLINE_SHARE },
    },
    // a tint for each label, set when the labels are known (LakeMap.setPatterns)
    {
      id: 'tints',
      type: 'fill',
      ...of('lake', 'substrate'),
      paint: { 'fill-antialias': false, 'fill-color': ink.water },
    },
    {
      id: 'patterns',
      type: 'fill',
      ...of('lake', 'substrate'),
      paint: {
        'fill-antialias': false,
        'fill-pattern': ['get', 'pattern'],
        'fill-opacity': appearing(zooms.line - PATTERNS_BEFORE, 1),
      },
    },
    {
      id: 'contours',
      type: 'line',
      ...of('lake', 'contour'),
      paint: { 'line-color': ink.ink, 'line-width': 0.7, 'line-opacity': byRank(zooms, 0.4) },
    },
    {
      id: 'contours-over-density',
      type: 'line',
      ...of('lake', 'contour'),
      paint: {
        'line-color': ink.ink,
        'line-width': 0.7,
        // over density at lake scale they would be taken for borders of its classes
        'line-opacity': ['step', ['zoom'], 0, zooms.line, 0.4],
      },
    },
    {
      id: 'borders',
      type: 'line',
      ...of('lake', 'substrate'),
      paint: { 'line-color': ink.quiet, 'line-width': 0.8, 'line-opacity': 0.7 },
    },
    {
      id: 'bed-focus-fill',
      type: 'fill',
      source: 'lake',
      filter: NOTHING,
      paint: { 'fill-antialias': false, 'fill-color': ink.accent, 'fill-opacity': 0.18 },
    },
    {
      id: 'bed-focus-line',
      type: 'line',
      source: 'lake',
      filter: NOTHING,
      paint: { 'line-color': ink.accent, 'line-width': 2.2 },
    },
    {
      id: 'land',
      type: 'fill',
      ...of('lake', 'land'),
      paint: { 'fill-antialias': false, 'fill-color': ink.paper },
    },
    {
      id: 'shore',
      type: 'line',
      ...of('lake', 'water'),
      layout: { 'line-join': 'round' },
      paint: { 'line-color': ink.ink, 'line-width': 1.8 },
    },
    {
      id: 'contour-labels',
      type: 'symbol',
      ...of('lake', 'contour'),
      minzoom: zooms.line - LABELS_BEFORE,
      layout: {
        ...text(['get', 'label'], 11),
        'symbol-placement': 'line',
        'symbol-spacing': 320,
      },
      paint: { ...textPaint(ink), 'text-color': ink.quiet, 'text-opacity': byRank(zooms, 1) },
    },
    {
      id: 'treatments',
      type: 'line',
      ...of('lake', 'treatment'),
      paint: { 'line-color': ink.ink, 'line-width': 1.4, 'line-dasharray': [3, 2] },
    },
    {
      id: 'treatment-focus',
      type: 'line',
      source: 'lake',
      filter: NOTHING,
      paint: { 'line-color': ink.accent, 'line-width': 3 },
    },
    {
      id: 'treatment-names',
      type: 'symbol',
      ...of('lake', 'treatment'),
      minzoom: zooms.line - 2,
      layout: text(['get', 'name'], 13),
      paint: textPaint(ink),
    },
  ];
}
