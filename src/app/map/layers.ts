/** The map's local style: its sources, and its layers from the bottom up. Nothing in it comes from a network. */

import type { LayerSpecification, SourceSpecification, StyleSpecification } from 'maplibre-gl';
import { shapes } from './features/geo.ts';
import type { Ink } from './ink.ts';
import { SHAPE_SOURCES, type ShapeSource, type TransectZooms } from './layer-parts.ts';
import { areaLayers } from './layers-areas.ts';
import { bedLayers } from './layers-bed.ts';
import { findingLayers } from './layers-findings.ts';
import { planLayers } from './layers-plan.ts';
import { transectLayers } from './layers-transects.ts';

export function emptyStyle(ink: Ink, zooms: TransectZooms): StyleSpecification {
  const sources: Record<string, SourceSpecification> = Object.fromEntries(
    SHAPE_SOURCES.map((name) => [name, shapeSource(name)]),
  );
  return { version: 8, sources, layers: layers(ink, zooms) };
}

function shapeSource(name: ShapeSource): SourceSpecification {
  const promoteId = { transects: 'transect', marks: 'transect' }[name as string];
  return {
    type: 'geojson',
    data: shapes([]),
    // lines half a metre apart must stay apart: tiles to deep zooms, no simplification at the last one
    maxzoom: 20,
    tolerance: 0.2,
    ...(promoteId === undefined ? {} : { promoteId }),
  };
}

/** All layers but the density image, which `DENSITY_BEFORE` names the place of. */
export function layers(ink: Ink, zooms: TransectZooms): LayerSpecification[] {
  return [
    ...bedLayers(ink, zooms),
    ...transectLayers(ink, zooms),
    ...findingLayers(ink, zooms),
    ...areaLayers(ink),
    ...planLayers(ink),
  ];
}

/** The layer above the density image. */
export const DENSITY_BEFORE = 'edge';
/** The layer above a base map of the user's own. */
export const BASE_MAP_BEFORE = 'water';
