/** Where the one map looks: fitted to a place, moved to another, and how its pixels lie on the lake. */

import type * as maplibregl from 'maplibre-gl';
import type { LngLat } from '../../../shared/survey.ts';
import type { Box, Size } from './card-place.ts';
import { boundsOf, mercator, type Places } from './features/geo.ts';
import { roomAround } from './fit-room.ts';

/** Closest that a fit goes: a lake of one transect is not shown as a piece of transect. */
const FIT_MOST_ZOOM = 17;
const FLY_MS = 700;

export class Camera {
  private readonly map: maplibregl.Map;
  private readonly covered: () => Box[];
  /** what the map was fitted to, as long as nobody has moved it since */
  private fitted: { places: Places; mostZoom: number; leastScale: number | undefined } | null =
    null;
  private stopped = false;

  constructor(map: maplibregl.Map, covered: () => Box[]) {
    this.map = map;
    this.covered = covered;
    // by hand, wheel or key; what the map does by itself has no such event behind it
    map.on('movestart', (e) => {
      if (e.originalEvent) this.fitted = null;
    });
    this.refitWhenResized();
  }

  stop(): void {
    this.stopped = true;
  }

  /** A phone that is turned still shows the whole lake. */
  private refitWhenResized(): void {
    let { width, height } = this.size();
    this.map.on('resize', () => {
      const now = this.size();
      // another number of pixels for the same place is no other size
      if (now.width === width && now.height === height) return;
      ({ width, height } = now);
      if (this.fitted !== null && !this.stopped)
        this.fit(this.fitted.places, false, this.fitted.mostZoom, this.fitted.leastScale);
    });
  }

  /**
   * Shows all of `places`, off what lies on the map; says whether all of that could be left free.
   * @param leastScale of `roomAround`
   */
  fit(places: Places, moving = true, mostZoom = FIT_MOST_ZOOM, leastScale?: number): boolean {
    const bounds = boundsOf(places.flat());
    if (bounds === null) throw new RangeError('got no place to fit the map to, expected one');
    const { west, south, east, north } = bounds;
    const covered = this.covered();
    const { room, free } = roomAround(
      places.map((line) => line.filter((at) => at.every(Number.isFinite)).map(mercator)),
      this.size(),
      covered,
      leastScale,
    );
    this.fitted = { places, mostZoom, leastScale };
    this.map.fitBounds([west, south, east, north], {
      padding: room,
      maxZoom: mostZoom,
      duration: moving ? FLY_MS : 0,
    });
    return free === covered.length;
  }

  /** Flies there only when it is off the screen, or nearly. */
  bringIntoView(at: LngLat): void {
    const { x, y } = this.map.project(at);
    const { width, height } = this.size();
    const margin = Math.min(width, height) / 12;
    if (x > margin && y > margin && x < width - margin && y < height - margin) return;
    this.fitted = null;
    this.map.easeTo({ center: at, duration: FLY_MS });
  }

  zoomBy(steps: 1 | -1): void {
    this.fitted = null;
    if (steps > 0) this.map.zoomIn();
    else this.map.zoomOut();
  }

  pixelOf(at: LngLat): { x: number; y: number } {
    const { x, y } = this.map.project(at);
    return { x, y };
  }

  centre(): LngLat {
    const { lng, lat } = this.map.getCenter();
    return [lng, lat];
  }

  size(): Size {
    const { clientWidth: width, clientHeight: height } = this.map.getCanvas();
    return { width, height };
  }

  /** Calls back while the map moves; returns what ends that. */
  onMove(moved: () => void): () => void {
    this.map.on('move', moved);
    return () => {
      this.map.off('move', moved);
    };
  }
}
