/** Names beside lines. */

import { describe, expect, it } from 'vitest';
import { type PlacedLabel, placeLabels } from '../../../src/app/plots/place-labels.ts';

const FRAME = { left: 0, right: 400, top: 0, bottom: 200 };
const straight = (x: number) => Array.from({ length: 21 }, (_, i) => [x, i * 10] as const);
const WIDTH = 40;
/** Height of a line of text as the module lays it out. */
const HEIGHT = 16;

function overlap(a: PlacedLabel, b: PlacedLabel): boolean {
  return Math.abs(a.x - b.x) < WIDTH && Math.abs(a.y - b.y) < HEIGHT;
}

describe('names', () => {
  it('stand in the frame, beside their line, nearest to the middle', () => {
    const [label] = placeLabels([{ text: 'rock', widthPx: WIDTH, points: straight(100) }], FRAME);
    // 6 px to the right of the line, at the middle of the frame
    expect(label).toEqual({ text: 'rock', x: 106, y: 100, leader: null });
  });

  it('do not lie on each other when lines run close together', () => {
    const lines = [100, 104, 108, 112].map((x, i) => ({
      text: `s${i}`,
      widthPx: WIDTH,
      points: straight(x),
    }));
    const labels = placeLabels(lines, FRAME);
    expect(labels).toHaveLength(4);
    labels.forEach((a, i) => {
      for (const b of labels.slice(i + 1)) expect(overlap(a, b)).toBe(false);
    });
  });

  it('stand farther off, with a leader, where the neighbour is too near', () => {
    const lines = [100, 130].map((x, i) => ({
      text: `s${i}`,
      widthPx: WIDTH,
      points: straight(x),
    }));
    const [left, right] = placeLabels(lines, FRAME);
    // the left one goes left, the right one right: each beside its own line
    expect([left!.x, left!.leader]).toEqual([100 - 6 - WIDTH, null]);
    expect([right!.x, right!.leader]).toEqual([130 + 6, null]);
    // a third line between them has no room on either side and reaches over a neighbour
    const middle = { text: 'm', widthPx: WIDTH, points: straight(115) };
    const label = placeLabels([...lines, middle], FRAME)[2];
    expect(label.leader).not.toBeNull();
    expect(label.leader!.toX).toBe(115);
    expect(label.x + WIDTH <= 100 || label.x >= 130).toBe(true);
  });

  it('stand on the other side of a line at the edge', () => {
    const [label] = placeLabels([{ text: 'rock', widthPx: WIDTH, points: straight(390) }], FRAME);
    expect(label!.x).toBe(390 - 6 - WIDTH);
  });

  it('are left away where there is no room for them', () => {
    const wide = [{ text: 'long', widthPx: 500, points: straight(100) }];
    expect(placeLabels(wide, FRAME)).toEqual([]);
  });
});
