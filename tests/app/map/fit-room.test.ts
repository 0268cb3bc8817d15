/** Where a lake is drawn on the map: off the buttons, the scale bar and the legend. */

import { describe, expect, it } from 'vitest';
import { roomAround } from '../../../src/app/map/fit-room.ts';

const box = (wide: number, high: number) => [
  [
    { x: 0, y: 0 },
    { x: wide, y: 0 },
    { x: wide, y: high },
    { x: 0, y: high },
    { x: 0, y: 0 },
  ],
];

describe('the room around a fitted shape', () => {
  it('is the same on both sides where nothing lies on the map', () => {
    // by hand: 800 px less 36 on each side for a shape of 2 by 1
    expect(roomAround(box(2, 1), { width: 800, height: 600 }, []).room).toEqual({
      left: 36,
      right: 36,
      top: 118,
      bottom: 118,
    });
  });

  it('moves the shape off the legend before it makes it smaller', () => {
    const legend = { left: 500, top: 350, right: 786, bottom: 586 };
    const { room, free } = roomAround(box(2, 1), { width: 800, height: 600 }, [legend]);
    expect(free).toBe(1);
    // by hand: 20 px smaller each way would do; 728 px wide and 364 high from 36 on ends at 400
    expect(600 - room.bottom).toBeLessThanOrEqual(350 - 8);
    expect(800 - room.left - room.right).toBeGreaterThan(0.8 * 728);
  });

  it('lets a slanting shape reach beside the buttons', () => {
    const slant = [
      [
        { x: 0, y: 0 },
        { x: 0.2, y: 0 },
        { x: 1, y: 1 },
        { x: 0.8, y: 1 },
        { x: 0, y: 0 },
      ],
    ];
    const buttons = { left: 240, top: 10, right: 290, bottom: 120 };
    const { room, free } = roomAround(slant, { width: 300, height: 300 }, [buttons]);
    expect(free).toBe(1);
    // by hand: 300 px less 300/14 on each side, nothing given up
    expect(300 - room.left - room.right).toBeCloseTo((300 * 12) / 14, 9);
  });

  it('sees a long straight side that crosses a box between its ends', () => {
    const middle = { left: 190, top: 0, right: 210, bottom: 40 };
    const { room, free } = roomAround(box(1, 1), { width: 400, height: 400 }, [middle]);
    expect(free).toBe(1);
    expect(room.top).toBeGreaterThanOrEqual(48);
  });

  it('gives up the last box where the shape would become too small', () => {
    const [buttons, legend] = [
      { left: 350, top: 10, right: 390, bottom: 50 },
      { left: 120, top: 100, right: 390, bottom: 390 },
    ];
    const { room, free } = roomAround(box(1, 1), { width: 400, height: 400 }, [buttons, legend]);
    expect(free).toBe(1);
    expect(room.top >= 58 || room.right >= 58).toBe(true);
  });

  it('says when there is nothing to fit', () => {
    expect(() => roomAround([], { width: 400, height: 400 }, [])).toThrow('got no point');
  });
});
