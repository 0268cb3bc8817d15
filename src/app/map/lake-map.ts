/**
 * The one map: a MapLibre map with a local style, kept for the whole life of the page. It is told what to show; it tells
 * where it is looked at and pointed at. It knows records and pixels, no component and no worker.
 */

import type * as maplibregl from 'maplibre-gl';
import type { LngLat } from '../../../shared/survey.ts';
import type { Station } from '../contract.ts';
import { Camera } from './camera.ts';
import type { Box } from './card-place.ts';
import type { BedLabel } from './features/bed-label.ts';
import type { Shapes } from './features/geo.ts';
import { type Hand, listenForHand } from './gestures.ts';
import { addMarks, addPatterns } from './icons.ts';
import type { Ink } from './ink.ts';
import { NOTHING, onBed, type ShapeSource, type TransectZooms } from './layer-parts.ts';
import { BASE_MAP_BEFORE, DENSITY_BEFORE, emptyStyle, layers } from './layers.ts';
import { tints } from './layers-bed.ts';
import { newMap } from './new-map.ts';
import { nextTask } from './next-task.ts';
import { layersAt } from './stations.ts';
import { steadyFrames } from './steady-frames.ts';
import type { TileFile } from './tile-file.ts';
import { servedFromFile } from './tile-protocol.ts';
import { restyleForZooms } from './zoomed-style.ts';

/** Where the map looks, for what is drawn beside it. */
export interface MapView {
  lng: number;
  lat: number;
  zoom: number;
}

export interface MapEvents {
  moved(view: MapView): void;
  pointed(at: LngLat | null, pixel: { x: number; y: number }): void;
  pressed(at: LngLat, pixel: { x: number; y: number }): void;
  /** true when everything asked for is on the screen */
  idle(idle: boolean): void;
}

type Corners = [LngLat, LngLat, LngLat, LngLat];

/** A density layer of one pixel stands in until the first one is painted. */
const NOWHERE: Corners = [
  [0, 0.001],
  [0.001, 0.001],
  [0.001, 0],
  [0, 0],
];

export class LakeMap {
  readonly camera: Camera;
  private readonly map: maplibregl.Map;
  /** over when the map is loaded and the last thing asked for is on it */
  private turn: Promise<void>;
  private zooms: TransectZooms = { line: 15.2, clusters: 18, ticks: 19.5, counts: 16 };
  private station: Station = 'survey';
  private ink: Ink;
  private patterns: { labels: readonly BedLabel[]; classes: readonly string[] } = {
    labels: [],
    classes: [],
  };
  private readonly shown = new Map<ShapeSource, string>();
  private focusedTransect: string | null = null;
  private surface = false;
  private baseMap = false;
  private gone = false;

  /** `covered`: what lies on the map now and is not to lie on a lake that is fitted into it */
  constructor(container: HTMLElement, ink: Ink, events: MapEvents, covered: () => Box[]) {
    this.ink = ink;
    this.map = newMap(container, emptyStyle(ink, this.zooms));
    this.camera = new Camera(this.map, covered);
    this.turn = new Promise((resolve) => {
      this.map.once('load', () => {
        this.drawIcons();
        this.map.addSource('density', { type: 'image', coordinates: NOWHERE });
        this.map.addLayer(
          {
            id: 'density',
            type: 'raster',
            source: 'density',
            paint: { 'raster-resampling': 'nearest', 'raster-fade-duration': 0 },
          },
          DENSITY_BEFORE,
        );
        this.showStation();
        resolve();
      });
    });
    this.listen(events);
  }

  private listen(events: MapEvents): void {
    const { map } = this;
    const at = (e: maplibregl.MapMouseEvent): LngLat => [e.lngLat.lng, e.lngLat.lat];
    map.on('move', () => events.moved({ ...map.getCenter(), zoom: map.getZoom() }));
    map.on('mousemove', (e) => events.pointed(at(e), e.point));
    map.on('mouseout', () => events.pointed(null, { x: 0, y: 0 }));
    map.on('click', (e) => events.pressed(at(e), e.point));
    steadyFrames(map, {
      busy: () => events.idle(false),
      rested: () => {
        // where it looks, for tests that point at a known place
        const { lng, lat } = map.getCenter();
        map.getContainer().dataset.view = [lng, lat, map.getZoom()].join();
        events.idle(true);
      },
    });
  }

  remove(): void {
    this.gone = true;
    this.camera.stop();
    this.map.remove();
  }

  /**
   * Loaded and still there; what waits for a map that was taken down waits for ever. Each that waits goes on in a task of its
   * own, in the order of asking, so that all the shapes of a survey do not hold the page up at once.
   */
  private up(): Promise<void> {
    this.turn = this.turn
      .then(nextTask)
      .then(() => (this.gone ? new Promise(() => {}) : undefined));
    return this.turn;
  }

  // ---- what is shown ----

  /** What is on the map already is not drawn again: after a change most of a survey is as before. */
  async setShapes(source: ShapeSource, data: Shapes): Promise<void> {
    const text = JSON.stringify(data);
    if (this.shown.get(source) === text) return;
    this.shown.set(source, text);
    await this.up();
    void (this.map.getSource(source) as maplibregl.GeoJSONSource).setData(data);
  }

  /** Patterns for these labels of the bed; before the shapes that use them. */
  async setPatterns(labels: readonly BedLabel[], classes: readonly string[]): Promise<void> {
    const names = (all: readonly BedLabel[]) => all.map(({ label }) => label).join();
    if (
      names(labels) === names(this.patterns.labels) &&
      classes.join() === this.patterns.classes.join()
    )
      return;
    this.patterns = { labels, classes };
    await this.up();
    addPatterns(this.map, this.ink, labels, classes);
    this.setTints();
  }

  /** The substrates' greys, by label; those of the theme at hand. */
  private setTints(): void {
    const { labels, classes } = this.patterns;
    if (labels.length === 0) return;
    this.map.setPaintProperty('tints', 'fill-color', tints(labels, classes, this.ink));
  }

  private drawIcons(): void {
    addPatterns(this.map, this.ink, this.patterns.labels, this.patterns.classes);
    addMarks(this.map, this.ink);
  }

  async setStation(station: Station): Promise<void> {
    this.station = station;
    await this.up();
    this.showStation();
  }

  private showStation(): void {
    const seen = layersAt(this.station);
    for (const { id } of this.map.getStyle().layers) {
      if (id === 'base-map') continue;
      const hidden =
        !seen.has(id) ||
        ((id === 'density' || id === 'hatch') && !this.surface) ||
        // the user's own map shows the land and the water around the survey
        (id === 'land' && this.baseMap);
      this.map.setLayoutProperty(id, 'visibility', hidden ? 'none' : 'visible');
    }
  }

  /** The same layers in other colours. */
  async setInk(ink: Ink): Promise<void> {
    if (ink === this.ink) return;
    this.ink = ink;
    await this.up();
    this.drawIcons();
    for (const layer of layers(ink, this.zooms))
      for (const [name, value] of Object.entries(layer.paint ?? {}))
        this.map.setPaintProperty(layer.id, name as never, value as never);
    this.setTints();
  }

  async setTransectZooms(zooms: TransectZooms): Promise<void> {
    this.zooms = zooms;
    await this.up();
    restyleForZooms(this.map, layers(this.ink, zooms));
  }

  /** The density image; null takes it away. */
  async setDensity(painted: { image: ImageBitmap; corners: Corners } | null): Promise<void> {
    await this.up();
    this.surface = painted !== null;
    if (painted !== null)
      (this.map.getSource('density') as maplibregl.ImageSource).updateImage({
        image: painted.image,
        coordinates: painted.corners,
      });
    this.showStation();
  }

  // ---- what is looked at ----

  async focusTransect(transect: string | null): Promise<void> {
    await this.up();
    const set = (id: string, focus: boolean): void => {
      for (const source of ['transects', 'marks'])
        this.map.setFeatureState({ source, id }, { focus });
    };
    if (this.focusedTransect !== null) set(this.focusedTransect, false);
    if (transect !== null) set(transect, true);
    this.focusedTransect = transect;
  }

  async focusBed(label: string | null): Promise<void> {
    await this.up();
    for (const id of ['bed-focus-fill', 'bed-focus-line'])
      this.map.setFilter(id, label === null ? NOTHING : onBed(label));
  }

  /** One treatment area by its place in the file. */
  async focusTreatment(area: number | null): Promise<void> {
    await this.up();
    this.map.setFilter(
      'treatment-focus',
      area === null
        ? NOTHING
        : ['all', ['==', ['get', 'kind'], 'treatment'], ['==', ['get', 'area'], area]],
    );
  }

  async focusFinding(index: number | null): Promise<void> {
    await this.up();
    this.map.setFilter(
      'finding-focus',
      index === null ? NOTHING : ['in', `,${index},`, ['get', 'indices']],
    );
  }

  canvas(): HTMLCanvasElement {
    return this.map.getCanvas();
  }

  /** What the hand does on the map; returns what ends that. */
  listenForHand(hand: Hand): () => void {
    return listenForHand(this.map, hand);
  }

  setCursor(cursor: 'pointer' | 'crosshair' | 'move' | ''): void {
    this.map.getCanvas().style.cursor = cursor;
  }

  /** Pictures of a file under everything else. */
  async setTileFile(tiles: TileFile): Promise<void> {
    await this.setBaseMap({
      url: servedFromFile(tiles),
      maxZoom: tiles.maxZoom,
      minZoom: tiles.minZoom,
    });
  }

  /** Raster tiles under everything else; null takes them away. */
  async setBaseMap(
    tiles: { url: string; maxZoom: number; minZoom?: number } | null,
  ): Promise<void> {
    await this.up();
    if (this.map.getLayer('base-map')) this.map.removeLayer('base-map');
    if (this.map.getSource('base-map')) this.map.removeSource('base-map');
    this.baseMap = tiles !== null;
    if (tiles !== null) {
      this.map.addSource('base-map', {
        type: 'raster',
        tiles: [tiles.url],
        tileSize: 256,
        minzoom: tiles.minZoom ?? 0,
        maxzoom: tiles.maxZoom,
      });
      this.map.addLayer({ id: 'base-map', type: 'raster', source: 'base-map' }, BASE_MAP_BEFORE);
    }
    this.map.setPaintProperty('water', 'fill-opacity', tiles === null ? 1 : 0.35);
    this.showStation();
  }
}
