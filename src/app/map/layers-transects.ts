/** Transects: marks from afar, the true transect with its segments, marks and clusters from near. */

import type { LayerSpecification } from 'maplibre-gl';
import type { Ink } from './ink.ts';
import { focused, markSize, of, type TransectZooms, text, textPaint } from './layer-parts.ts';

const LEAST_ZOOM = 0;
const MOST_ZOOM = 24;

export function transectLayers(ink: Ink, zooms: TransectZooms): LayerSpecification[] {
  const far = { minzoom: LEAST_ZOOM, maxzoom: zooms.line };
  const near = { minzoom: zooms.line, maxzoom: MOST_ZOOM };
  const close = { minzoom: zooms.clusters, maxzoom: MOST_ZOOM };
  const closest = { minzoom: zooms.ticks, maxzoom: MOST_ZOOM };
  return [
    {
      id: 'strip-ground',
      type: 'fill',
      ...of('transects', 'strip'),
      ...close,
      paint: { 'fill-antialias': false, 'fill-color': ink.panel, 'fill-opacity': 0.92 },
    },
    {
      id: 'strips',
      type: 'fill',
      ...of('transects', 'strip'),
      ...close,
      paint: { 'fill-antialias': false, 'fill-pattern': ['get', 'pattern'] },
    },
    {
      id: 'strip-edges',
      type: 'line',
      ...of('transects', 'strip'),
      ...close,
      paint: { 'line-color': ink.ink, 'line-width': 0.9, 'line-opacity': 0.7 },
    },
    {
      id: 'transect-edge',
      type: 'line',
      ...of('transects', 'transect'),
      ...near,
      paint: { 'line-color': ink.panel, 'line-width': 4 },
    },
    {
      id: 'transect-line',
      type: 'line',
      ...of('transects', 'transect'),
      ...near,
      layout: { 'line-cap': 'round' },
      paint: { 'line-color': ink.ink, 'line-width': 1.8 },
    },
    {
      id: 'transect-focus',
      type: 'line',
      ...of('transects', 'transect'),
      ...near,
      layout: { 'line-cap': 'round' },
      paint: { 'line-color': ink.accent, 'line-width': 5, 'line-opacity': focused(1, 0) },
    },
    {
      id: 'ticks',
      type: 'line',
      ...of('transects', 'tick'),
      ...closest,
      paint: { 'line-color': ink.ink, 'line-width': 1.2 },
    },
    {
      id: 'tick-labels',
      type: 'symbol',
      source: 'tickLabels',
      ...closest,
      layout: { ...text(['get', 'text'], 12), 'text-anchor': 'left', 'text-offset': [0.9, 0.5] },
      paint: textPaint(ink),
    },
    {
      id: 'transect-halo',
      type: 'circle',
      source: 'marks',
      maxzoom: zooms.clusters,
      paint: {
        'circle-radius': 16,
        'circle-color': ink.accent,
        'circle-opacity': focused(0.16, 0),
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 2,
        'circle-stroke-opacity': focused(1, 0),
      },
    },
    {
      id: 'transect-flag',
      type: 'circle',
      source: 'marks',
      ...far,
      filter: ['get', 'flagged'],
      paint: {
        'circle-radius': 13,
        'circle-opacity': 0,
        'circle-stroke-color': ink.caution,
        'circle-stroke-width': 1.6,
      },
    },
    {
      id: 'transect-mark',
      type: 'symbol',
      source: 'marks',
      ...far,
      layout: {
        'icon-image': 'transect',
        'icon-rotate': ['get', 'bearing'],
        'icon-rotation-alignment': 'map',
        'icon-size': markSize(zooms, 1),
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
    {
      id: 'transect-detected',
      type: 'circle',
      source: 'marks',
      maxzoom: zooms.clusters,
      paint: {
        'circle-radius': markSize(zooms, 4),
        'circle-color': ['case', ['>', ['get', 'clusters'], 0], ink.ink, ink.panel],
        'circle-stroke-color': ['case', ['>', ['get', 'clusters'], 0], ink.panel, ink.ink],
        'circle-stroke-width': 1.5,
      },
    },
    {
      id: 'planned-line',
      type: 'line',
      ...of('transects', 'planned-line'),
      ...near,
      paint: { 'line-color': ink.quiet, 'line-width': 1.8, 'line-dasharray': [1.5, 2] },
    },
    {
      id: 'planned-mark',
      type: 'symbol',
      ...of('transects', 'planned'),
      layout: {
        ...text(['get', 'name'], 12),
        'icon-image': 'planned',
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
        'text-anchor': 'top',
        'text-offset': [0, 0.7],
        'text-optional': true,
      },
      paint: textPaint(ink),
    },
    {
      id: 'clusters',
      type: 'symbol',
      source: 'clusters',
      ...close,
      layout: {
        'icon-image': ['concat', 'cluster:', ['get', 'shape']],
        // area in proportion to the count, a lone mussel still a mark one can see
        'icon-size': ['min', 1.6, ['*', 0.34, ['sqrt', ['get', 'count']]]],
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
        'symbol-sort-key': ['-', 0, ['get', 'count']],
      },
    },
    {
      id: 'residual-lines',
      type: 'line',
      ...of('transects', 'residual'),
      ...near,
      paint: { 'line-color': ink.caution, 'line-width': 2, 'line-dasharray': [2, 1.5] },
    },
    {
      id: 'residual-points',
      type: 'symbol',
      source: 'residualPoints',
      ...near,
      layout: {
        'icon-image': 'waypoint',
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
  ];
}
