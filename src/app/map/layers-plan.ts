/** Planned dives on the map, and places where nobody may dive. */

import type { LayerSpecification } from 'maplibre-gl';
import type { Ink } from './ink.ts';
import { of, text, textPaint } from './layer-parts.ts';

/** Names of these layers, from the bottom up. */
export const PLAN_LAYERS = [
  'no-dive-fill',
  'no-dive-line',
  'plan-line',
  'plan-start',
  'plan-names',
] as const;
type PlanLayer = (typeof PLAN_LAYERS)[number];

export function planLayers(ink: Ink): LayerSpecification[] {
  const layers: Record<PlanLayer, Omit<LayerSpecification, 'id'>> = {
    'no-dive-fill': {
      type: 'fill',
      ...of('areas', 'no-dive'),
      paint: { 'fill-antialias': false, 'fill-color': ink.caution, 'fill-opacity': 0.16 },
    },
    'no-dive-line': {
      type: 'line',
      ...of('areas', 'no-dive'),
      paint: { 'line-color': ink.caution, 'line-width': 1.8, 'line-dasharray': [2, 1.5] },
    },
    'plan-line': {
      type: 'line',
      ...of('areas', 'plan'),
      paint: { 'line-color': ink.accent, 'line-width': 3 },
    },
    'plan-start': {
      type: 'circle',
      ...of('areas', 'plan-start'),
      paint: {
        'circle-radius': 4,
        'circle-color': ink.panel,
        'circle-stroke-color': ink.accent,
        'circle-stroke-width': 2,
      },
    },
    'plan-names': {
      type: 'symbol',
      ...of('areas', 'plan-start'),
      layout: { ...text(['get', 'name'], 12), 'text-offset': [0, -1] },
      paint: textPaint(ink),
    },
  };
  return PLAN_LAYERS.map((id) => ({ id, ...layers[id] }) as LayerSpecification);
}
