/**
 * Where the name of a line can stand without touching another line or name: beside its line where there is room, else
 * farther off with a leader to it.
 */

import { extent } from '../../../shared/extent.ts';

export interface LabelLine {
  text: string;
  widthPx: number;
  /** the line's points, from the top down */
  points: readonly (readonly [number, number])[];
}

export interface PlacedLabel {
  text: string;
  /** left end and middle of the text */
  x: number;
  y: number;
  /** from the text to the line, when it does not stand beside it */
  leader: { fromX: number; toX: number } | null;
}

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

interface Candidate {
  box: Box;
  /** the point of the line that is named */
  anchorX: number;
  gapPx: number;
}

/** Beside the line, or with a leader of so many pixels. */
const GAPS_PX = [6, 22, 40, 60, 84];
const HEIGHT_PX = 16;
/** Beyond this distance more room is no better. */
const ENOUGH_PX = 12;
/** A leader of 10 px is worth a pixel of room: short ones are better, and none is best. */
const LEADER_COST = 0.1;

/**
 * One label a line, right or left of one of its points; among equally good places the one nearest to the middle. Longer
 * names choose first. A line whose name fits nowhere has none. Pixels, y downwards.
 */
export function placeLabels(lines: readonly LabelLine[], frame: Box): PlacedLabel[] {
  const taken: Box[] = [];
  const order = lines.map((_, i) => i).sort((a, b) => lines[b].widthPx - lines[a].widthPx);
  const placed: (PlacedLabel | null)[] = lines.map(() => null);
  for (const i of order) {
    const line = lines[i];
    let best: { at: Candidate; score: number } | null = null;
    for (const at of candidates(line, frame)) {
      const cost = LEADER_COST * (at.gapPx - GAPS_PX[0]);
      if (best !== null && ENOUGH_PX - cost <= best.score) continue; // room for more is no better
      const room = extent([
        ...lines.map((other) => distanceToLine(at, other.points, other === line)),
        ...taken.map((other) => distanceToBox(withLeader(at), other)),
        ENOUGH_PX,
      ])[0];
      const score = room - cost;
      if (best === null || score > best.score + 1e-6) best = { at, score };
    }
    if (best === null) continue;
    taken.push(withLeader(best.at));
    placed[i] = labelOf(line.text, best.at);
  }
  return placed.filter((p): p is PlacedLabel => p !== null);
}

function labelOf(text: string, { box, anchorX, gapPx }: Candidate): PlacedLabel {
  const nearX = box.left > anchorX ? box.left - 2 : box.right + 2;
  return {
    text,
    x: box.left,
    y: (box.top + box.bottom) / 2,
    leader: gapPx === GAPS_PX[0] ? null : { fromX: nearX, toX: anchorX },
  };
}

function* candidates(line: LabelLine, frame: Box): Generator<Candidate> {
  const middle = (frame.top + frame.bottom) / 2;
  const fromMiddle = [...line.points].sort(
    (a, b) => Math.abs(a[1] - middle) - Math.abs(b[1] - middle),
  );
  for (const gapPx of GAPS_PX) {
    for (const [x, y] of fromMiddle) {
      for (const left of [x + gapPx, x - gapPx - line.widthPx]) {
        const [top, bottom] = [y - HEIGHT_PX / 2, y + HEIGHT_PX / 2];
        const box = { left, right: left + line.widthPx, top, bottom };
        if (within(box, frame)) yield { box, anchorX: x, gapPx };
      }
    }
  }
}

function within(box: Box, frame: Box): boolean {
  return (
    box.left >= frame.left &&
    box.right <= frame.right &&
    box.top >= frame.top &&
    box.bottom <= frame.bottom
  );
}

/** The text and its leader: no other name may lie on either. */
function withLeader({ box, anchorX, gapPx }: Candidate): Box {
  if (gapPx === GAPS_PX[0]) return box;
  return { ...box, left: Math.min(box.left, anchorX), right: Math.max(box.right, anchorX) };
}

/** From a text to the nearest point of a line; its own line may be as near as the gap, but not under it. */
function distanceToLine(
  { box, gapPx }: Candidate,
  points: readonly (readonly [number, number])[],
  own: boolean,
): number {
  let leastSquare = Number.POSITIVE_INFINITY;
  for (const [x, y] of points) {
    const dx = Math.max(box.left - x, 0, x - box.right);
    const dy = Math.max(box.top - y, 0, y - box.bottom);
    leastSquare = Math.min(leastSquare, dx * dx + dy * dy);
  }
  const least = Math.sqrt(leastSquare);
  const beside = own && gapPx === GAPS_PX[0] && least >= GAPS_PX[0] / 2;
  return beside ? ENOUGH_PX : least;
}

function distanceToBox(a: Box, b: Box): number {
  const dx = Math.max(a.left - b.right, 0, b.left - a.right);
  const dy = Math.max(a.top - b.bottom, 0, b.top - a.bottom);
  return Math.hypot(dx, dy);
}
