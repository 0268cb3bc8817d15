/** How each layer is drawn: densities in the classes and colours of our own maps, substrates in greys, everything else in ink. */

import { term, terms } from '../../../shared/glossary.ts';
import { CLASS_BREAKS, classColour, classLabel, NO_VALUE } from '../../present/ramp.ts';
import { substrateTint } from '../../present/substrate-tint.ts';
import { INK } from '../figures/frame.ts';
import type { LayerStyle } from './geopackage.ts';
import { layerStyle, type StyleRule } from './styles.ts';

/** Thin enough not to stand for anything. */
const HAIR = 0.3;

/** @param field of mussels per m²; a polygon without one is drawn as such */
export function densityStyle(layer: string, field: string): LayerStyle {
  const limits = [null, ...CLASS_BREAKS, null];
  const classes = limits.slice(1).map(
    (below, k): StyleRule => ({
      words: `${classLabel(k)} ${terms('mussel')} per m²`,
      when: { field, from: limits[k], below },
      paint: { kind: 'fill', fill: classColour(k, false), stroke: INK.quiet, width: HAIR },
    }),
  );
  return layerStyle('density', layer, [
    ...classes,
    {
      words: `no ${term('density')}`,
      when: { field, missing: true },
      paint: { kind: 'fill', fill: NO_VALUE.light, stroke: INK.quiet, width: HAIR },
    },
  ]);
}

/** @param met labels on the map; @param order the survey's classes */
export function substrateStyle(
  layer: string,
  met: readonly string[],
  order: readonly string[],
): LayerStyle {
  return layerStyle(
    'substrate',
    layer,
    met.map((name) => ({
      words: name,
      when: { field: 'substrate', equals: name },
      paint: {
        kind: 'fill',
        fill: substrateTint(name.split('+'), order, false),
        stroke: INK.quiet,
        width: HAIR,
      },
    })),
  );
}

export function areaStyle(layer: string): LayerStyle {
  const paint = { kind: 'fill', fill: null, stroke: INK.text, width: 2, dashed: true } as const;
  return layerStyle('outline', layer, [{ words: 'outline', when: null, paint }]);
}

/** Lines on which something was detected are drawn through. */
export function lineStyle(layer: string): LayerStyle {
  const line = { kind: 'line', stroke: INK.text, width: 2 } as const;
  return layerStyle('searched', layer, [
    {
      words: `${terms('cluster')} detected`,
      when: { field: 'clusters', from: 1, below: null },
      paint: line,
    },
    {
      words: 'searched, nothing detected',
      when: { field: 'clusters', from: null, below: 1 },
      paint: { ...line, dashed: true },
    },
  ]);
}

export function detectionStyle(layer: string): LayerStyle {
  const paint = {
    kind: 'mark',
    fill: INK.text,
    stroke: INK.panel,
    width: 1,
    size: 7,
  } as const;
  return layerStyle('clusters', layer, [{ words: terms('detectedCluster'), when: null, paint }]);
}
