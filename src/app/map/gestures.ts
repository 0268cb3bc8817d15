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
  const listening = [
    map.on('mousedown', down(MOUSE_REACH_PX)),
    map.on('touchstart', down(FINGER_REACH_PX)),
    map.on('mousemove', move),
    map.on('touchmove', move),
    map.on('click', (e) => {
      // where the hand lets go of what it dragged is no press
      if (!dragged) hand.press(at(e), e.point);
    }),
    map.on('dblclick', (e) => {
      if (hand.pressTwice()) e.preventDefault();
    }),
  ];
  // also where the pointer has left the map
  const beyond = new AbortController();
  for (const type of ['mouseup', 'touchend', 'touchcancel'])
    addEventListener(type, up, { signal: beyond.signal });
  return () => {
    for (const one of listening) one.unsubscribe();
    beyond.abort();
  };
}
