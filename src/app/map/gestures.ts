/** Presses, moves and releases on the map, for whoever works on it with the hand; what is taken does not move the map. */

import type * as maplibregl from 'maplibre-gl';
import type { LngLat } from '../../../shared/survey.ts';
import type { Pixel } from './card-place.ts';

export interface Hand {
  /** true: it is taken, and what follows up to `up` is too; `reachPx` is as wide as what points */
  down(at: LngLat, pixel: Pixel, reachPx: number): boolean;
  /** while taken */
  drag(at: LngLat): void;
  up(): void;
  /** nothing is pressed */
  hover(at: LngLat, pixel: Pixel): void;
  /** pressed and let go of at one place */
  press(at: LngLat, pixel: Pixel): void;
  /** true: pressed twice means something else here than to zoom in */
  pressTwice(): boolean;
}

const MOUSE_REACH_PX = 9;
const FINGER_REACH_PX = 20;

/** Returns what ends it. */
export function listenForHand(map: maplibregl.Map, hand: Hand): () => void {
  type Event = maplibregl.MapMouseEvent | maplibregl.MapTouchEvent;
  let taken = false;
  let dragged = false;
  const at = (e: Event): LngLat => [e.lngLat.lng, e.lngLat.lat];
  const down = (reachPx: number) => (e: Event) => {
    dragged = false;
    const touches = 'touches' in e.originalEvent ? e.originalEvent.touches.length : 1;
    if (touches > 1 || !hand.down(at(e), e.point, reachPx)) return;
    taken = true;
    e.preventDefault();
  };
  const move = (e: Event) => {
    if (taken) {
      dragged = true;
      hand.drag(at(e));
    } else hand.hover(at(e), e.point);
  };
  const up = () => {
    if (!taken) return;
    taken = false;
    hand.up();
  };
  const mouseDown = down(MOUSE_REACH_PX);
  const touchStart = down(FINGER_REACH_PX);
  // where the hand lets go of what it dragged is no press
  const click = (e: maplibregl.MapMouseEvent) => {
    if (!dragged) hand.press(at(e), e.point);
  };
  const twice = (e: maplibregl.MapMouseEvent) => {
    if (hand.pressTwice()) e.preventDefault();
  };
  map.on('mousedown', mouseDown);
  map.on('touchstart', touchStart);
  map.on('mousemove', move);
  map.on('touchmove', move);
  map.on('click', click);
  map.on('dblclick', twice);
  // also where the pointer has left the map
  addEventListener('mouseup', up);
  addEventListener('touchend', up);
  addEventListener('touchcancel', up);
  return () => {
    map.off('mousedown', mouseDown);
    map.off('touchstart', touchStart);
    map.off('mousemove', move);
    map.off('touchmove', move);
    map.off('click', click);
    map.off('dblclick', twice);
    removeEventListener('mouseup', up);
    removeEventListener('touchend', up);
    removeEventListener('touchcancel', up);
  };
}
