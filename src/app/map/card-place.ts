/** On which side of its place a card stands: on the map, and not on the legend. */

export interface Pixel {
  x: number;
  y: number;
}

export interface Size {
  width: number;
  height: number;
}

export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** As large as a card gets, with its distance from its place. */
export const CARD_PX: Size = { width: 270, height: 190 };

export interface CardPlace {
  toLeft: boolean;
  above: boolean;
  /** px to the right and down, from beside its place: only where it would be hidden there */
  shift: Pixel;
}

/** Right of and below the place if there is room, else where least of the card is hidden; moved off its place where it must. */
export function cardPlace(at: Pixel, map: Size, legend: Box | null): CardPlace {
  let best: CardPlace = { toLeft: false, above: false, shift: { x: 0, y: 0 } };
  let least = Number.POSITIVE_INFINITY;
  for (const above of [false, true])
    for (const toLeft of [false, true])
      for (const shift of shiftsOf(boxAt(at, toLeft, above), map, legend)) {
        const far = Math.abs(shift.x) + Math.abs(shift.y);
        const cost = hiddenOf(moved(boxAt(at, toLeft, above), shift), map, legend) + far;
        if (cost < least) {
          least = cost;
          best = { toLeft, above, shift };
        }
      }
  return best;
}

function boxAt({ x, y }: Pixel, toLeft: boolean, above: boolean): Box {
  const left = toLeft ? x - CARD_PX.width : x;
  const top = above ? y - CARD_PX.height : y;
  return { left, top, right: left + CARD_PX.width, bottom: top + CARD_PX.height };
}

const moved = (box: Box, { x, y }: Pixel): Box => ({
  left: box.left + x,
  top: box.top + y,
  right: box.right + x,
  bottom: box.bottom + y,
});

/** None, to within the map, and to beside or above the legend, which stands in the map's corner. */
function shiftsOf(box: Box, { width, height }: Size, legend: Box | null): Pixel[] {
  const within = (from: number, to: number, end: number): number =>
    from < 0 ? -from : Math.min(0, end - to);
  const across = [0, within(box.left, box.right, width)];
  const down = [0, within(box.top, box.bottom, height)];
  if (legend !== null) {
    across.push(Math.min(0, legend.left - box.right));
    down.push(Math.min(0, legend.top - box.bottom));
  }
  return across.flatMap((x) => down.map((y) => ({ x, y })));
}

/** Square pixels of a card off the map or on the legend. */
function hiddenOf(card: Box, { width, height }: Size, legend: Box | null): number {
  const onMap = overlap(card, { left: 0, top: 0, right: width, bottom: height });
  const covered = legend === null ? 0 : overlap(card, legend);
  return CARD_PX.width * CARD_PX.height - onMap + covered;
}

/** Square pixels that two boxes share. */
function overlap(a: Box, b: Box): number {
  const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}
