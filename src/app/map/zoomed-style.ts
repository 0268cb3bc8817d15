/** What changes of the layers when the zooms do at which transects change their looks. */

import type * as maplibregl from 'maplibre-gl';

/** Paint that depends on these zooms: what appears or grows with them. */
const PAINT: Readonly<Record<string, readonly string[]>> = {
  'transect-detected': ['circle-radius'],
  patterns: ['fill-opacity'],
  'counts-present': ['circle-radius'],
  'counts-detected': ['circle-radius'],
  contours: ['line-opacity'],
  'contours-over-density': ['line-opacity'],
  'contour-labels': ['text-opacity'],
};

/** `layers` as they are to be, all of which are on the map. */
export function restyleForZooms(
  map: maplibregl.Map,
  layers: readonly maplibregl.LayerSpecification[],
): void {
  for (const layer of layers) {
    if (layer.minzoom !== undefined || layer.maxzoom !== undefined)
      map.setLayerZoomRange(layer.id, layer.minzoom ?? 0, layer.maxzoom ?? 24);
    if (layer.id === 'count-names' && layer.type === 'symbol')
      map.setLayoutProperty(layer.id, 'text-radial-offset', layer.layout?.['text-radial-offset']);
    if ((layer.id === 'transect-mark' || layer.id === 'count-room') && layer.type === 'symbol')
      map.setLayoutProperty(layer.id, 'icon-size', layer.layout?.['icon-size']);
    for (const [name, value] of Object.entries(layer.paint ?? {}))
      if (PAINT[layer.id]?.includes(name))
        map.setPaintProperty(layer.id, name as never, value as never);
  }
}
