/** Finger, mouse, wheel and keys. */

import type { Card } from './card.ts';
import { byId } from './elements.ts';
import type { View } from './view.ts';

/** A pointer that moved less is a click, CSS pixels. */
const STILL = 6;
/** An arrow key moves by this part of the view. */
const STEP = 0.2;
const CLOSER = 1.5;

export function listen(view: View, card: Card): void {
  const frame = byId('map');
  listenToPointers(frame, view, card);
  frame.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      // a notch of a wheel is about 100 px, or 3 lines
      const notches =
        event.deltaMode === WheelEvent.DOM_DELTA_LINE ? event.deltaY / 3 : event.deltaY / 100;
      view.zoom(CLOSER ** -Math.max(-3, Math.min(3, notches)), [event.clientX, event.clientY]);
    },
    { passive: false },
  );
  frame.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (keyDone(event.key, frame, view, card)) event.preventDefault();
  });
  byId('in').addEventListener('click', () => view.zoom(CLOSER));
  byId('out').addEventListener('click', () => view.zoom(1 / CLOSER));
  byId('whole').addEventListener('click', () => view.whole());
}

/** Whether the key means something to the map. */
function keyDone(key: string, frame: HTMLElement, view: View, card: Card): boolean {
  const [dx, dy] = [frame.clientWidth * STEP, frame.clientHeight * STEP];
  switch (key) {
    case 'ArrowLeft':
      view.move(-dx, 0);
      return true;
    case 'ArrowRight':
      view.move(dx, 0);
      return true;
    case 'ArrowUp':
      view.move(0, -dy);
      return true;
    case 'ArrowDown':
      view.move(0, dy);
      return true;
    case '+':
    case '=':
      view.zoom(CLOSER);
      return true;
    case '-':
      view.zoom(1 / CLOSER);
      return true;
    case '0':
      view.whole();
      return true;
    case 'Enter':
      card.open(view.middle());
      return true;
    case 'n':
    case 'N':
      card.next();
      return true;
    case 'Escape':
      card.close();
      return true;
    default:
      return false;
  }
}

type Point = [x: number, y: number];

function listenToPointers(frame: HTMLElement, view: View, card: Card): void {
  const down = new Map<number, Point>();
  let moved = 0;
  frame.addEventListener('pointerdown', (event) => {
    if (down.size === 0) moved = 0;
    down.set(event.pointerId, [event.clientX, event.clientY]);
    if (down.size > 1) moved = Number.POSITIVE_INFINITY;
    if (event.pointerType === 'mouse') frame.setPointerCapture(event.pointerId);
  });
  frame.addEventListener('pointermove', (event) => {
    const before = down.get(event.pointerId);
    if (before === undefined) return;
    const now: Point = [event.clientX, event.clientY];
    moved += Math.hypot(now[0] - before[0], now[1] - before[1]);
    if (down.size === 1 && moved < STILL) return;
    const [wide, middle] = spread(down);
    down.set(event.pointerId, now);
    const [wider, newMiddle] = spread(down);
    view.move(middle[0] - newMiddle[0], middle[1] - newMiddle[1]);
    if (down.size > 1 && wide > 0) view.zoom(wider / wide, newMiddle);
  });
  frame.addEventListener('pointerup', (event) => {
    if (down.delete(event.pointerId) && down.size === 0 && moved < STILL)
      card.open(view.unitsAt(event.clientX, event.clientY));
  });
  frame.addEventListener('pointercancel', (event) => void down.delete(event.pointerId));
}

/** How far apart pointers are on average, and their middle. */
function spread(down: ReadonlyMap<number, Point>): [number, Point] {
  const points = [...down.values()];
  const mean = (axis: 0 | 1): number => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  const middle: Point = [mean(0), mean(1)];
  const apart = points.reduce((sum, [x, y]) => sum + Math.hypot(x - middle[0], y - middle[1]), 0);
  return [apart / points.length, middle];
}
