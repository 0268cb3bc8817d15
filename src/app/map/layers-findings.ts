/** What the stations say of the transects: counts, departures from the model, findings, names. */

import type { LayerSpecification, SymbolLayerSpecification } from 'maplibre-gl';
import { ROOM_PX } from './icons.ts';
import type { Ink } from './ink.ts';
import { countRadius, NOTHING, type TransectZooms, text, textPaint } from './layer-parts.ts';

const NAME_PX = 12;
/** A name stands so far off a disc, and off the middle of a mark: beyond the room of either. */
const CLEAR_EM = 0.4;
const MARK_CLEAR_EM = 1.1;
/** Labels are placed for the whole zoom below, at which discs are up to half as large. */
const FARTHER = 1.6;
/** Names of transects keep clear of the symbols, of each other, and of the room below. */
const NAMES = {
  'text-variable-anchor': ['top', 'bottom', 'left', 'right', 'top-right', 'top-left'],
  'text-justify': 'auto',
  'text-padding': 2,
} satisfies SymbolLayerSpecification['layout'];
/** An unseen symbol takes part in the placing of labels, which a circle does not: none may lie on it. */
const ROOM = {
  'icon-image': 'room',
  'icon-allow-overlap': true,
  'icon-ignore-placement': false,
  'icon-padding': 0,
} satisfies SymbolLayerSpecification['layout'];

export function findingLayers(ink: Ink, zooms: TransectZooms): LayerSpecification[] {
  return [
    {
      id: 'counts-present',
      type: 'circle',
      source: 'counts',
      paint: {
        'circle-radius': countRadius(['get', 'present'], zooms),
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
        'circle-radius': countRadius(['get', 'detected'], zooms),
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
      layout: {
        ...text(['get', 'transect'], NAME_PX),
        ...NAMES,
        'text-radial-offset': MARK_CLEAR_EM,
      },
      paint: textPaint(ink),
    },
    {
      id: 'count-names',
      type: 'symbol',
      source: 'counts',
      layout: {
        ...text(['get', 'transect'], NAME_PX),
        ...NAMES,
        'text-radial-offset': countRadius(['get', 'present'], zooms, FARTHER / NAME_PX, CLEAR_EM),
      },
      paint: textPaint(ink),
    },
    {
      id: 'mark-room',
      type: 'symbol',
      source: 'marks',
      layout: { ...ROOM, 'icon-size': 1 },
    },
    {
      id: 'count-room',
      type: 'symbol',
      source: 'counts',
      layout: { ...ROOM, 'icon-size': countRadius(['get', 'present'], zooms, 2 / ROOM_PX) },
    },
  ];
}
