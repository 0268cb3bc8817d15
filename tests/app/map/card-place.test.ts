/** Where a card on the map stands. */

import { describe, expect, it } from 'vitest';
import { cardPlace } from '../../../src/app/map/card-place.ts';

const MAP = { width: 800, height: 600 };
const LEGEND = { left: 530, top: 300, right: 786, bottom: 586 };

describe('a card on the map', () => {
  it('stands to the right and below where there is room', () => {
    expect(cardPlace({ x: 100, y: 100 }, MAP, LEGEND)).toEqual({ toLeft: false, above: false });
  });

  it('turns at the edges of the map', () => {
    expect(cardPlace({ x: 700, y: 100 }, MAP, null)).toEqual({ toLeft: true, above: false });
    expect(cardPlace({ x: 100, y: 560 }, MAP, null)).toEqual({ toLeft: false, above: true });
  });

  it('keeps off the legend', () => {
    // to the right it would lie on the legend from 530 on
    expect(cardPlace({ x: 400, y: 400 }, MAP, LEGEND)).toEqual({ toLeft: true, above: false });
    expect(cardPlace({ x: 600, y: 260 }, MAP, LEGEND)).toEqual({ toLeft: true, above: true });
  });
});
