/**
 * The hand on the areas of the map: a press chooses an area, or sets a corner of the one that is drawn; the chosen area is
 * moved by its inside, its corners by themselves, and a side by its middle gets a corner more.
 */

import type { LngLat, LngLatPolygon } from '../../../../shared/survey.ts';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import { isWithin } from '../../../present/spot.ts';
import {
  type ChosenArea,
  type CornerPath,
  chooseArea,
  deskNow,
  emptyHand,
  setDesk,
} from '../../state/area-desk.ts';
import type { AreaFile, PlacedArea } from '../../state/area-edits.ts';
import { type Areas, areaAt } from '../../state/use-areas.ts';
import type { Pixel } from '../card-place.ts';
import type { Hand } from '../gestures.ts';
import {
  closedArea,
  cornersOf,
  isArea,
  movedBy,
  withCorner,
  withCornerAfter,
  withoutCorner,
} from './corners.ts';

/** A second press so near the last corner is no other corner. */
const SAME_PX = 5;
/** So near its first corner a drawing is closed. */
const CLOSE_PX = 12;
/** Middles of sides shorter than this would lie on their corners. */
const LEAST_SIDE_PX = 26;

export interface HandWork {
  areas(): Areas;
  pixelOf(at: LngLat): Pixel;
  cursor(cursor: 'pointer' | 'crosshair' | 'move' | ''): void;
  /** why it cannot be kept, in words */
  fault(polygons: LngLatPolygon[]): Promise<string | null>;
  keepNew(file: AreaFile, polygons: LngLatPolygon[]): void;
  keepShape(chosen: ChosenArea, polygons: LngLatPolygon[], how: string): void;
}

type Grip =
  | { by: 'corner'; path: CornerPath; base: LngLatPolygon[]; how: string }
  | { by: 'inside'; from: LngLat; base: LngLatPolygon[]; how: string };

export interface AreaHand extends Hand {
  /** the corner under the crosshair; at the last corner again: closes */
  cornerAt(at: LngLat): void;
  finish(): void;
  drop(): void;
  /** takes back the last corner of a drawing, or the marked corner of the chosen area; false where there is none */
  takeCorner(): boolean;
}

export function areaHand(work: HandWork): AreaHand {
  let grip: Grip | null = null;
  let keeping = false;

  const near = (a: LngLat, pixel: Pixel): number => {
    const { x, y } = work.pixelOf(a);
    return Math.hypot(x - pixel.x, y - pixel.y);
  };

  function chosenArea(): { chosen: ChosenArea; area: PlacedArea } | null {
    const { chosen } = deskNow();
    const area = chosen && areaAt(work.areas(), chosen);
    return area && chosen ? { chosen, area } : null;
  }

  function gripAt(at: LngLat, pixel: Pixel, reachPx: number): Grip | null {
    const own = chosenArea();
    if (own === null) return null;
    const base = own.area.polygons;
    const corners = cornersOf(base);
    const nearest = <T>(list: T[], of: (one: T) => LngLat): T | undefined => {
      const [best] = list
        .map((one) => ({ one, px: near(of(one), pixel) }))
        .filter(({ px }) => px <= reachPx)
        .sort((a, b) => a.px - b.px);
      return best?.one;
    };
    const corner = nearest(corners, (c) => c.at);
    if (corner) return { by: 'corner', path: corner.path, base, how: 'reshaped' };
    const side = nearest(
      corners.filter((c) => 2 * near(c.middle, work.pixelOf(c.at)) >= LEAST_SIDE_PX),
      (c) => c.middle,
    );
    if (side) {
      const [p, r, c] = side.path;
      const added = withCornerAfter(base, side.path, side.middle);
      return { by: 'corner', path: [p, r, c + 1], base: added, how: 'reshaped' };
    }
    return isWithin(base, at) ? { by: 'inside', from: at, base, how: 'moved' } : null;
  }

  async function keep(polygons: LngLatPolygon[], kept: () => void): Promise<void> {
    if (keeping) return; // a second press on its way
    keeping = true;
    try {
      const problem = await work.fault(polygons);
      if (problem === null) kept();
      setDesk({ moving: null, problem });
    } finally {
      keeping = false;
    }
  }

  function addCorner(at: LngLat, samePx: number, closePx: number): void {
    const { drawing } = deskNow();
    if (drawing === null) return;
    const pixel = work.pixelOf(at);
    const { corners } = drawing;
    const [first, last] = [corners[0], corners.at(-1)];
    if (isArea(corners) && first && near(first, pixel) <= closePx) hand.finish();
    else if (last === undefined || near(last, pixel) > samePx)
      setDesk({ drawing: { ...drawing, corners: [...corners, at] }, problem: null });
  }

  const hand: AreaHand = {
    down(at, pixel, reachPx) {
      if (deskNow().drawing !== null) return false;
      grip = gripAt(at, pixel, reachPx);
      if (grip?.by === 'corner') setDesk({ corner: grip.path });
      return grip !== null;
    },
    drag(at) {
      if (grip === null) return;
      const moving =
        grip.by === 'corner'
          ? withCorner(grip.base, grip.path, at)
          : movedBy(grip.base, [at[0] - grip.from[0], at[1] - grip.from[1]]);
      setDesk({ moving, problem: null });
    },
    up() {
      const { moving, chosen } = deskNow();
      const how = grip?.how ?? '';
      grip = null;
      if (moving !== null && chosen !== null)
        void keep(moving, () => work.keepShape(chosen, moving, how));
    },
    hover(at, pixel) {
      const { drawing } = deskNow();
      if (drawing !== null) {
        work.cursor('crosshair');
        setDesk({ drawing: { ...drawing, pointer: at } });
        return;
      }
      const over = gripAt(at, pixel, SAME_PX + 4);
      const other = over === null ? areaUnder(work.areas(), at) : null;
      work.cursor(
        over === null ? (other ? 'pointer' : '') : over.by === 'inside' ? 'move' : 'pointer',
      );
    },
    press(at, pixel) {
      if (deskNow().drawing !== null) {
        addCorner(at, SAME_PX, CLOSE_PX);
        return;
      }
      if (gripAt(at, pixel, SAME_PX + 4) === null) chooseArea(areaUnder(work.areas(), at));
    },
    pressTwice() {
      const { drawing } = deskNow();
      if (drawing === null) return chosenArea() !== null;
      hand.finish();
      return true;
    },
    cornerAt(at) {
      const { drawing } = deskNow();
      const last = drawing?.corners.at(-1);
      if (drawing && last && isArea(drawing.corners) && near(last, work.pixelOf(at)) <= SAME_PX)
        hand.finish();
      else addCorner(at, SAME_PX, SAME_PX);
    },
    finish() {
      const { drawing } = deskNow();
      if (drawing === null || !isArea(drawing.corners)) return;
      const polygons = closedArea(drawing.corners);
      void keep(polygons, () => work.keepNew(drawing.file, polygons));
    },
    drop() {
      setDesk({ ...emptyHand(), chosen: deskNow().chosen });
    },
    takeCorner() {
      const { drawing, corner, chosen } = deskNow();
      if (drawing !== null) {
        setDesk({ drawing: { ...drawing, corners: drawing.corners.slice(0, -1) } });
        return true;
      }
      const own = chosenArea();
      if (corner === null || chosen === null || own === null) return false;
      const left = withoutCorner(own.area.polygons, corner);
      if (left === null) return false;
      setDesk({ corner: null });
      void keep(left, () => work.keepShape(chosen, left, 'reshaped'));
      return true;
    },
  };
  return hand;
}

/** Of several that lie on one another the one drawn last. */
function areaUnder({ candidates, keptOut }: Areas, at: LngLat): ChosenArea | null {
  const found = (areas: readonly PlacedArea[], file: AreaFile): ChosenArea[] => {
    const under = areas.findLast(({ polygons }) => isWithin(polygons, at));
    return under === undefined ? [] : [{ file, place: under.place }];
  };
  return found(candidates, TREATMENTS_FILE)[0] ?? found(keptOut, KEEP_OUT_FILE)[0] ?? null;
}
