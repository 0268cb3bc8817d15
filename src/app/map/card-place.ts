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

/** Right of and below the place if there is room, else where most of the card is seen. */
export function cardPlace(
  { x, y }: Pixel,
  { width, height }: Size,
  legend: Box | null,
): { toLeft: boolean; above: boolean } {
  let best = { toLeft: false, above: false };
  let least = Number.POSITIVE_INFINITY;
  for (const above of [false, true])
    for (const toLeft of [false, true]) {
      const left = toLeft ? x - CARD_PX.width : x;
      const top = above ? y - CARD_PX.height : y;
      const card = { left, top, right: left + CARD_PX.width, bottom: top + CARD_PX.height };
      const onMap = overlap(card, { left: 0, top: 0, right: width, bottom: height });
      const hidden =
        CARD_PX.width * CARD_PX.height - onMap + (legend === null ? 0 : overlap(card, legend));
      if (hidden < least) {
        least = hidden;
        best = { toLeft, above };
      }
    }
  return best;
}

/** Square pixels that two boxes share. */
function overlap(a: Box, b: Box): number {
  const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}
