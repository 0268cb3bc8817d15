/** Which part of the drawing is seen: moved, zoomed, and never lost out of sight. */

import type { PublicFacts } from '../../shared/public-map.ts';
import { roundBelow } from '../../shared/round-numbers.ts';
import type { PublicFormatter } from '../present/public-words.ts';
import { byId } from './elements.ts';

export interface View {
  /** a place of the window in units of the drawing */
  unitsAt(clientX: number, clientY: number): [x: number, y: number];
  /** the place in the middle */
  middle(): [x: number, y: number];
  /** by CSS pixels */
  move(dx: number, dy: number): void;
  /** closer by this factor, around a place of the window, or its middle */
  zoom(factor: number, around?: [clientX: number, clientY: number]): void;
  whole(): void;
  /** brings a place into sight above the card, closer if all of the lake is seen */
  show(at: readonly [number, number]): void;
  /** units a CSS pixel */
  unit(): number;
  /** sets the words of the scale bar */
  tell(): void;
}

/** At the closest a unit of the drawing is this many pixels. */
const CLOSEST = 4;
/** A place that is gone to is seen at least so close, as a part of the whole. */
const CLOSE = 0.25;
/** And so far above the middle, as a part of the view: a card covers its foot. */
const ABOVE = 0.2;
/** CSS pixels that the scale bar may take. */
const BAR = 120;

export function startView(facts: PublicFacts, format: () => PublicFormatter): View {
  const frame = byId('map');
  const svg = byId('lake');
  const width = Number(svg.dataset.width);
  const height = Number(svg.dataset.height);
  /** middle, and units a pixel */
  let [x, y, unit] = [width / 2, height / 2, 1];

  const size = () => ({ w: Math.max(1, frame.clientWidth), h: Math.max(1, frame.clientHeight) });
  const widest = (): number => Math.max(width / size().w, height / size().h);

  function draw(): void {
    const { w, h } = size();
    unit = Math.min(widest(), Math.max(1 / CLOSEST, unit));
    x = kept(x, (w * unit) / 2, width);
    y = kept(y, (h * unit) / 2, height);
    const box = [x - (w * unit) / 2, y - (h * unit) / 2, w * unit, h * unit];
    svg.setAttribute('viewBox', box.map((v) => v.toFixed(2)).join(' '));
    frame.style.setProperty('--unit', unit.toFixed(4));
    document.getElementById('hatch')?.setAttribute('patternTransform', `scale(${unit.toFixed(4)})`);
    // all of it seen: a finger that moves up or down moves the page
    frame.style.touchAction = unit >= widest() * 0.999 ? 'pan-y' : 'none';
    tell();
  }

  function tell(): void {
    const lengthM = roundBelow(BAR * unit * facts.unitM);
    byId('bar').style.width = `${lengthM / (unit * facts.unitM)}px`;
    const { say } = format();
    byId('scale-words').textContent =
      lengthM >= 1000
        ? say('kilometres', { length: lengthM / 1000 })
        : say('metres', { length: lengthM });
  }

  function unitsAt(clientX: number, clientY: number): [number, number] {
    const { left, top } = frame.getBoundingClientRect();
    const { w, h } = size();
    return [x + (clientX - left - w / 2) * unit, y + (clientY - top - h / 2) * unit];
  }

  unit = widest();
  new ResizeObserver(draw).observe(frame);
  draw();
  return {
    unitsAt,
    tell,
    middle: () => [x, y],
    unit: () => unit,
    move(dx, dy) {
      [x, y] = [x + dx * unit, y + dy * unit];
      draw();
    },
    zoom(factor, around) {
      const before = around && unitsAt(...around);
      unit = Math.min(widest(), Math.max(1 / CLOSEST, unit / factor));
      if (around !== undefined && before !== undefined) {
        const after = unitsAt(...around);
        [x, y] = [x + before[0] - after[0], y + before[1] - after[1]];
      }
      draw();
    },
    whole() {
      unit = widest();
      draw();
    },
    show(at) {
      unit = Math.min(unit, widest() * CLOSE);
      [x, y] = [at[0], at[1] + ABOVE * size().h * unit];
      draw();
    },
  };
}

/** A middle from which no more than half of the view lies beyond an edge; of what is smaller than the view, its own. */
function kept(middle: number, half: number, length: number): number {
  if (2 * half >= length) return length / 2;
  return Math.min(length, Math.max(0, middle));
}
