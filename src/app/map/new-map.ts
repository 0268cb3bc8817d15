/** A MapLibre map for a lake: flat, north up, nothing fetched, its worker from our own files. */

import * as maplibregl from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import { MOVING_SHARE } from './steady-frames.ts';

maplibregl.setWorkerUrl(workerUrl);

const MOST_ZOOM = 23.5;

export function newMap(
  container: HTMLElement,
  style: maplibregl.StyleSpecification,
): maplibregl.Map {
  const map = new maplibregl.Map({
    container,
    style,
    center: [0, 0],
    zoom: 1,
    maxZoom: MOST_ZOOM,
    attributionControl: false,
    dragRotate: false,
    pitchWithRotate: false,
    touchPitch: false,
    maxPitch: 0,
    renderWorldCopies: false,
    fadeDuration: 0,
    pixelRatio: devicePixelRatio * MOVING_SHARE,
    // pixels are read back by tests, and by the browser when it prints
    canvasContextAttributes: { preserveDrawingBuffer: true },
    locale: { 'Map.Title': 'Map of the lake' },
  });

  map.touchZoomRotate.disableRotation();
  map.keyboard.disableRotation();
  return map;
}
