/** Areas under the hand: those of the survey, those proposed, places to keep out of, and what is being drawn. */

import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl';
import type { Ink } from './ink.ts';
import { of, text, textPaint } from './layer-parts.ts';

/** Names of these layers, from the bottom up. */
export const AREA_LAYERS = [
  'keep-out-fill',
  'keep-out-line',
  'proposal-line',
  'area-under',
  'area-line',
  'draft-line',
  'area-names',
  'area-middles',
  'area-corners',
] as const;
type AreaLayer = (typeof AREA_LAYERS)[number];

const CHOSEN: ExpressionSpecification = ['boolean', ['get', 'chosen'], false];
const MARKED: ExpressionSpecification = ['boolean', ['get', 'marked'], false];

export function areaLayers(ink: Ink): LayerSpecification[] {
  const whenChosen = (yes: string | number, no: string | number): ExpressionSpecification => [
    'case',
    CHOSEN,
    yes,
    no,
  ];
  const layers: Record<AreaLayer, Omit<LayerSpecification, 'id'>> = {
    'keep-out-fill': {
      type: 'fill',
      ...of('areas', 'keep-out'),
      paint: { 'fill-antialias': false, 'fill-color': ink.caution, 'fill-opacity': 0.16 },
    },
    'keep-out-line': {
      type: 'line',
      ...of('areas', 'keep-out'),
      paint: { 'line-color': ink.caution, 'line-width': whenChosen(3, 1.8) },
    },
    'proposal-line': {
      type: 'line',
      ...of('areas', 'proposal'),
      paint: { 'line-color': ink.ink, 'line-width': 2.2, 'line-dasharray': [1.2, 1] },
    },
    'area-under': {
      type: 'line',
      ...of('areas', 'area'),
      paint: { 'line-color': ink.panel, 'line-width': whenChosen(5.5, 4), 'line-opacity': 0.8 },
    },
    'area-line': {
      type: 'line',
      ...of('areas', 'area'),
      paint: {
        'line-color': whenChosen(ink.accent, ink.ink),
        'line-width': whenChosen(3, 1.8),
      },
    },
    'draft-line': {
      type: 'line',
      ...of('areas', 'draft'),
      paint: { 'line-color': ink.accent, 'line-width': 2.5, 'line-dasharray': [2, 1] },
    },
    'area-names': {
      type: 'symbol',
      ...of('areas', 'name'),
      layout: { ...text(['get', 'name'], 13), 'text-allow-overlap': true },
      paint: textPaint(ink),
    },
    'area-middles': {
      type: 'circle',
      ...of('areas', 'middle'),
      paint: {
        'circle-radius': 3.5,
        'circle-color': ink.panel,
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 1.2,
      },
    },
    'area-corners': {
      type: 'circle',
      ...of('areas', 'corner'),
      paint: {
        'circle-radius': ['case', MARKED, 7.5, 5.5],
        'circle-color': ['case', MARKED, ink.accent, ink.panel],
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 2.2,
      },
    },
  };
  return AREA_LAYERS.map((id) => ({ id, ...layers[id] }) as LayerSpecification);
}
