/** Shapes under the hand: rings stay closed, and an area keeps three corners. By hand. */

import { describe, expect, it } from 'vitest';
import type { LngLat, LngLatPolygon } from '../../../shared/survey.ts';
import {
  cornersOf,
  movedBy,
  withCorner,
  withCornerAfter,
  withoutCorner,
} from '../../../src/app/map/areas/corners.ts';

const closed = (...corners: LngLat[]): LngLat[] => [...corners, corners[0]];
const outer = closed([0, 0], [4, 0], [4, 4], [0, 4]);
const hole = closed([1, 1], [2, 1], [1, 2]);
const area: LngLatPolygon[] = [[outer, hole]];

describe('a shape under the hand', () => {
  it('moves whole, with its holes', () => {
    expect(movedBy(area, [1, 2])[0][1]).toEqual(closed([2, 3], [3, 3], [2, 4]));
  });

  it('stays closed when its first corner moves', () => {
    expect(withCorner(area, [0, 0, 0], [-1, -1])[0]).toEqual([
      closed([-1, -1], [4, 0], [4, 4], [0, 4]),
      hole,
    ]);
  });

  it('gets a corner behind the last one', () => {
    expect(withCornerAfter(area, [0, 0, 3], [-1, 2])[0][0]).toEqual(
      closed([0, 0], [4, 0], [4, 4], [0, 4], [-1, 2]),
    );
  });

  it('loses a corner, then a hole, and never its last three', () => {
    expect(withoutCorner(area, [0, 0, 0])?.[0]?.[0]).toEqual(closed([4, 0], [4, 4], [0, 4]));
    expect(withoutCorner(area, [0, 1, 2])).toEqual([[outer]]);
    expect(withoutCorner([[hole]], [0, 0, 0])).toBeNull();
    expect(withoutCorner([[hole], [outer]], [0, 0, 0])).toEqual([[outer]]);
  });

  it('has a middle on each side', () => {
    expect(cornersOf([[hole]]).map((c) => c.middle)).toEqual([
      [1.5, 1],
      [1.5, 1.5],
      [1, 1.5],
    ]);
  });
});
