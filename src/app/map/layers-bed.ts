/** The lake from the bottom up: water, hatch and patterns of the bed, contours, the surveyed edge, land and shore. */

import type { LayerSpecification } from 'maplibre-gl';
import { OUTLINE_SHARE } from '../look/ramp.ts';
import type { Ink } from './ink.ts';
import { NOTHING, of, type TransectZooms, text, textPaint } from './layer-parts.ts';

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
    {
      id: 'patterns',
      type: 'fill',
      ...of('lake', 'substrate'),
      paint: { 'fill-antialias': false, 'fill-pattern': ['get', 'pattern'] },
    },
    {
      id: 'contours',
      type: 'line',
      ...of('lake', 'contour'),
      paint: { 'line-color': ink.quiet, 'line-width': 0.7, 'line-opacity': 0.45 },
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
      id: 'treatments',
      type: 'line',
      ...of('lake', 'treatment'),
      paint: { 'line-color': ink.ink, 'line-width': 1.4, 'line-dasharray': [3, 2] },
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
