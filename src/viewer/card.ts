/** The words of one spot, on a card over the map: of a place that was searched, or of any other. */

import type { PublicFacts } from '../../shared/public-map.ts';
import { type PublicFormatter, placeWords, spotWords } from '../present/public-words.ts';
import { byId, shapeById } from './elements.ts';
import type { View } from './view.ts';

export interface Card {
  /** tells of the spot at a place of the drawing: of the nearest mark where one is close */
  open(at: readonly [number, number]): void;
  /** the next place that was searched, seen close */
  next(): void;
  close(): void;
  /** the same words again, in the language as it is */
  tell(): void;
}

/** A mark this close to a finger is meant, CSS pixels. */
const REACH = 18;
/** Between the card and the spot that it tells of, CSS pixels. */
const GAP = 8;

export function startCard(facts: PublicFacts, view: View, format: () => PublicFormatter): Card {
  const box = byId('card');
  const pin = document.getElementById('pin');
  let words: (() => string[]) | null = null;
  let last = -1;

  function tell(): void {
    box.replaceChildren();
    box.hidden = words === null;
    if (words === null) return;
    const close = document.createElement('button');
    close.type = 'button';
    close.textContent = '×';
    close.setAttribute('aria-label', format().say('close'));
    close.addEventListener('click', closeCard);
    for (const text of words()) box.append(paragraph(text));
    box.append(close);
  }

  function put(at: readonly [number, number], told: () => string[]): void {
    words = told;
    pin?.setAttribute('cx', String(at[0]));
    pin?.setAttribute('cy', String(at[1]));
    pin?.setAttribute('style', 'visibility: visible');
    byId('hint').hidden = true;
    tell();
    uncover();
  }

  /** A spot that the card lies on moves up, out from under it. */
  function uncover(): void {
    const spot = pin?.getBoundingClientRect();
    const own = box.getBoundingClientRect();
    if (spot === undefined || spot.left > own.right) return;
    if (spot.bottom > own.top) view.move(0, spot.bottom - own.top + GAP);
  }

  function closeCard(): void {
    words = null;
    pin?.removeAttribute('style');
    tell();
  }

  function tellPlace(place: number): void {
    last = place;
    put(facts.places[place].at, () => placeWords(facts, place, format()));
  }

  return {
    tell,
    close: closeCard,
    open(at) {
      const place = placeAt(facts, at, view.unit());
      if (place !== null) tellPlace(place);
      else {
        const spot = spotAt(facts, at);
        put(at, () => spotWords(facts, spot, format()));
      }
    },
    next() {
      if (facts.places.length === 0) return;
      const place = (last + 1) % facts.places.length;
      view.show(facts.places[place].at);
      tellPlace(place);
    },
  };
}

function paragraph(text: string): HTMLElement {
  const p = document.createElement('p');
  p.textContent = text;
  return p;
}

/** The nearest mark within reach, or the square that a spot lies in. */
function placeAt(facts: PublicFacts, at: readonly [number, number], unit: number): number | null {
  const apart = facts.places.map((p) => Math.hypot(p.at[0] - at[0], p.at[1] - at[1]));
  const nearest = apart.indexOf(
    apart.reduce((least, x) => Math.min(least, x), Number.POSITIVE_INFINITY),
  );
  if (nearest >= 0 && apart[nearest] <= REACH * unit) return nearest;
  if (facts.coarseM === null) return null;
  const half = facts.coarseM / facts.unitM / 2;
  const within = facts.places.findIndex(
    (p) => Math.abs(p.at[0] - at[0]) <= half && Math.abs(p.at[1] - at[1]) <= half,
  );
  return within < 0 ? null : within;
}

function spotAt(facts: PublicFacts, [x, y]: readonly [number, number]) {
  const point = new DOMPoint(x, y);
  const shades = [...document.querySelectorAll<SVGGeometryElement>('#lake .shade')];
  const deepest = shades.findLastIndex((shade) => shade.isPointInFill(point));
  return {
    inLake: shapeById('water')?.isPointInFill(point) ?? false,
    inSurveyed: shapeById('edge')?.isPointInFill(point) ?? false,
    shade: facts.deepestM === null ? null : deepest + 1,
  };
}
