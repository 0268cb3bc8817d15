/** The small pictures of the map: transect marks, clusters by diver, patterns of the bed. Drawn here, none is fetched. */

import type { Map as MapLibre } from 'maplibre-gl';
import { rgbOf } from '../../present/ramp.ts';
import { SHAPES, shapePath } from '../look/observer-shapes.ts';
import { HATCH, type Pattern, type Pixels, patternFor, rasterise } from '../look/patterns.ts';
import { type BedLabel, patternName } from './features/bed-label.ts';
import type { Ink } from './ink.ts';

/** Device pixels per CSS pixel of every image. */
const SCALE = 2;
/** Side of a cluster's picture; its shape has this radius within it. */
export const CLUSTER_PX = 30;
export const CLUSTER_RADIUS_PX = 9;
/** Length of a transect's mark when the whole lake is seen. */
export const TRANSECT_MARK_PX = 24;
/** Side of the unseen picture that keeps labels off a symbol. */
export const ROOM_PX = 20;
const PATTERN_ALPHA = 0.55;
const HATCH_ALPHA = 0.6;

/** Patterns of the bed for these labels, and the hatch; those of another theme are replaced. */
export function addPatterns(
  map: MapLibre,
  ink: Ink,
  labels: readonly BedLabel[],
  classes: readonly string[],
): void {
  const tile = (pattern: Pattern, alpha: number): Pixels =>
    rasterise(pattern, rgbOf(ink.quiet), alpha, SCALE);
  setImage(map, 'hatch', tile(HATCH, HATCH_ALPHA));
  for (const { label, classes: own } of labels)
    setImage(map, patternName(label), tile(patternFor(own, classes), PATTERN_ALPHA));
}

/** Transects, clusters and what is said of them; those of another theme are replaced. */
export function addMarks(map: MapLibre, ink: Ink): void {
  const set = (
    name: string,
    width: number,
    height: number,
    draw: (c: CanvasRenderingContext2D) => void,
  ): void => setImage(map, name, drawn(width, height, draw));
  set('room', ROOM_PX, ROOM_PX, () => {});
  set('transect', 8, TRANSECT_MARK_PX + 4, (c) => transectMark(c, ink));
  for (const shape of SHAPES)
    set(`cluster:${shape}`, CLUSTER_PX, CLUSTER_PX, (c) =>
      cluster(c, shapePath(shape, CLUSTER_RADIUS_PX), ink),
    );
  set('waypoint', 14, 14, (c) => cross(c, ink));
  set('planned', 18, 18, (c) => brokenRing(c, ink));
  set('more', 22, 22, (c) => arrow(c, ink, -1));
  set('fewer', 22, 22, (c) => arrow(c, ink, 1));
}

function setImage(map: MapLibre, name: string, pixels: Pixels): void {
  if (map.hasImage(name)) map.updateImage(name, pixels);
  else map.addImage(name, pixels, { pixelRatio: SCALE });
}

function drawn(width: number, height: number, draw: (c: CanvasRenderingContext2D) => void): Pixels {
  const canvas = document.createElement('canvas');
  canvas.width = width * SCALE;
  canvas.height = height * SCALE;
  const c = canvas.getContext('2d', { willReadFrequently: true });
  if (c === null) throw new Error('got no drawing surface from the browser, expected a 2D canvas');
  c.scale(SCALE, SCALE);
  c.translate(width / 2, height / 2);
  c.lineCap = 'round';
  c.lineJoin = 'round';
  draw(c);
  const { data } = c.getImageData(0, 0, canvas.width, canvas.height);
  return { width: canvas.width, height: canvas.height, data: new Uint8Array(data.buffer) };
}

/** A line pointing north with a bead at each third, on a pale edge that keeps it readable on every colour. */
function transectMark(c: CanvasRenderingContext2D, { ink, panel }: Ink): void {
  const half = TRANSECT_MARK_PX / 2;
  for (const [colour, width] of [
    [panel, 4],
    [ink, 1.6],
  ] as const) {
    c.strokeStyle = colour;
    c.lineWidth = width;
    c.beginPath();
    c.moveTo(0, -half);
    c.lineTo(0, half);
    c.stroke();
  }
  // the shallow end is where the transect begins: a small bar across it
  c.lineWidth = 1.6;
  c.beginPath();
  c.moveTo(-2.6, half);
  c.lineTo(2.6, half);
  c.stroke();
}

function cluster(c: CanvasRenderingContext2D, path: string, { ink, panel }: Ink): void {
  const shape = new Path2D(path);
  c.fillStyle = panel;
  c.strokeStyle = ink;
  c.lineWidth = 2;
  c.fill(shape);
  c.stroke(shape);
}

function cross(c: CanvasRenderingContext2D, { caution, panel }: Ink): void {
  for (const [colour, width] of [
    [panel, 4.5],
    [caution, 2],
  ] as const) {
    c.strokeStyle = colour;
    c.lineWidth = width;
    c.beginPath();
    c.moveTo(-4, -4);
    c.lineTo(4, 4);
    c.moveTo(-4, 4);
    c.lineTo(4, -4);
    c.stroke();
  }
}

/** Neither filled nor whole: nothing was searched there yet. */
function brokenRing(c: CanvasRenderingContext2D, { quiet, panel }: Ink): void {
  for (const [colour, width, dashes] of [
    [panel, 4.5, []],
    [quiet, 2, [3, 2.65]],
  ] as const) {
    c.strokeStyle = colour;
    c.lineWidth = width;
    c.lineCap = 'butt';
    c.setLineDash([...dashes]);
    c.beginPath();
    c.arc(0, 0, 6.3, 0, 2 * Math.PI);
    c.stroke();
  }
  c.setLineDash([]);
}

/** A triangle, point up (−1) or down (1). */
function arrow(c: CanvasRenderingContext2D, { ink, panel }: Ink, way: 1 | -1): void {
  c.beginPath();
  c.moveTo(-8, -6 * way);
  c.lineTo(8, -6 * way);
  c.lineTo(0, 7 * way);
  c.closePath();
  c.fillStyle = way < 0 ? ink : panel;
  c.strokeStyle = way < 0 ? panel : ink;
  c.lineWidth = 1.6;
  c.fill();
  c.stroke();
}
