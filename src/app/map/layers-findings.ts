/** What the stations say of the transects: counts, departures from the model, findings, names. */

import type { LayerSpecification } from 'maplibre-gl';
import type { Ink } from './ink.ts';
import { NOTHING, text, textPaint } from './layer-parts.ts';

export function findingLayers(ink: Ink): LayerSpecification[] {
  return [
    {
      id: 'counts-present',
      type: 'circle',
      source: 'counts',
      paint: {
        'circle-radius': ['get', 'present'],
        'circle-color': ink.panel,
        'circle-opacity': 0.75,
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 2,
      },
    },
    {
      id: 'counts-detected',
      type: 'circle',
      source: 'counts',
      paint: {
        'circle-radius': ['get', 'detected'],
        'circle-color': ink.ink,
        'circle-opacity': 0.85,
      },
    },
    {
      id: 'departures',
      type: 'symbol',
      source: 'departures',
      layout: {
        'icon-image': ['get', 'way'],
        'icon-size': ['get', 'size'],
        'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
    },
    {
      id: 'findings',
      type: 'circle',
      source: 'findings',
      paint: {
        'circle-radius': ['case', ['get', 'error'], 9, ['>', ['get', 'count'], 1], 8, 5],
        'circle-color': ['case', ['get', 'error'], ink.caution, ink.panel],
        'circle-stroke-color': ink.caution,
        'circle-stroke-width': 2,
      },
    },
    {
      id: 'finding-numbers',
      type: 'symbol',
      source: 'findings',
      layout: {
        // a lone remark is a ring without a number
        ...text(
          [
            'case',
            ['any', ['get', 'error'], ['>', ['get', 'count'], 1]],
            ['to-string', ['get', 'count']],
            '',
          ],
          12,
        ),
        'text-allow-overlap': true,
        'text-ignore-placement': true,
      },
      paint: { 'text-color': ['case', ['get', 'error'], ink.panel, ink.caution] },
    },
    {
      id: 'finding-focus',
      type: 'circle',
      source: 'findings',
      filter: NOTHING,
      paint: {
        'circle-radius': 15,
        'circle-opacity': 0,
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 3,
      },
    },
    {
      id: 'transect-names',
      type: 'symbol',
      source: 'marks',
      layout: { ...text(['get', 'transect'], 12), 'text-offset': [0, 1.5], 'text-anchor': 'top' },
      paint: textPaint(ink),
    },
  ];
}
