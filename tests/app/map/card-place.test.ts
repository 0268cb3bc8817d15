/** Where a card on the map stands. */

import { describe, expect, it } from 'vitest';
import { cardPlace } from '../../../src/app/map/card-place.ts';

const MAP = { width: 800, height: 600 };
const STAYS = { x: 0, y: 0 };
const LEGEND = { left: 530, top: 300, right: 786, bottom: 586 };

describe('a card on the map', () => {
  it('stands to the right and below where there is room', () => {
    expect(cardPlace({ x: 100, y: 100 }, MAP, LEGEND)).toEqual({
      toLeft: false,
      above: false,
      shift: STAYS,
    });
  });

  it('turns at the edges of the map', () => {
    expect(cardPlace({ x: 700, y: 100 }, MAP, null)).toEqual({
      toLeft: true,
      above: false,
      shift: STAYS,
    });
    expect(cardPlace({ x: 100, y: 560 }, MAP, null)).toEqual({
      toLeft: false,
      above: true,
      shift: STAYS,
    });
  });

  it('keeps off the legend', () => {
    // to the right it would lie on the legend from 530 on
    expect(cardPlace({ x: 400, y: 400 }, MAP, LEGEND)).toEqual({
      toLeft: true,
      above: false,
      shift: STAYS,
    });
    expect(cardPlace({ x: 600, y: 260 }, MAP, LEGEND)).toEqual({
      toLeft: true,
      above: true,
      shift: STAYS,
    });
  });

  it('moves off its place where there is no room beside it', () => {
    const small = { width: 500, height: 400 };
    // by hand: left of and above (240, 300) it would lie from -30 to 240, left of the legend; 30 further it is on the map
    const low = { left: 280, top: 120, right: 490, bottom: 390 };
    expect(cardPlace({ x: 240, y: 300 }, small, low)).toEqual({
      toLeft: true,
      above: true,
      shift: { x: 30, y: 0 },
    });
    // by hand: above (200, 300) it would end at 300, on a legend that begins at 200 and leaves 240 px beside it
    const wide = { left: 240, top: 200, right: 490, bottom: 390 };
    expect(cardPlace({ x: 200, y: 300 }, small, wide)).toEqual({
      toLeft: false,
      above: true,
      shift: { x: 0, y: -100 },
    });
  });
});
