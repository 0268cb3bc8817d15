/** Panels in rows; places by hand. */

import { describe, expect, it } from 'vitest';
import { downPanel, panelGrid } from '../../../src/app/plots/panel-grid.ts';

describe('panels side by side', () => {
  it('stand as many in a row as there is room for, in rows of about equal length', () => {
    // 440 px less 50 at the sides: three of 104 px or more, with 16 px between
    const firsts = (count: number) =>
      panelGrid(Array(count).fill('sand'), 440).panels.map((p) => p.first);
    expect(firsts(3)).toEqual([true, false, false]);
    expect(firsts(4)).toEqual([true, false, true, false]);
    expect(firsts(5)).toEqual([true, false, false, true, false]);
  });

  it('fill the row and stay within it', () => {
    const { panels } = panelGrid(['sand', 'silt', 'rock'], 440);
    expect(panels[0].left).toBe(40);
    expect(panels[2].right).toBeCloseTo(430, 9);
    // (390 − 32) / 3
    expect(panels[1].right - panels[1].left).toBeCloseTo(119.333, 3);
  });

  it('one alone is no wider than it need be, and a narrow column has one a row', () => {
    const [alone] = panelGrid(['sand'], 900).panels;
    expect(alone.right - alone.left).toBe(220);
    expect(panelGrid(['sand', 'rock'], 200).panels.every((p) => p.first)).toBe(true);
  });

  it('tell how far down a panel a height lies', () => {
    const grid = panelGrid(['mud', 'silt', 'sand', 'rock'], 440);
    // a title of 24 px, then 150 px; the next row 214 px further down
    expect(downPanel(grid, 24)).toBe(0);
    expect(downPanel(grid, 99)).toBe(0.5);
    expect(downPanel(grid, 180)).toBeNull();
    expect(downPanel(grid, 214 + 24 + 150)).toBe(1);
  });

  it('keep whole names in lines above them, and all panels make room for the longest', () => {
    // 119 px are 16 letters of 7.4 px
    const { panels, heightPx } = panelGrid(['sand', 'gravel and pebble', 'sand and gravel'], 440);
    expect(panels.map((p) => p.title)).toEqual([
      ['sand'],
      ['gravel and', 'pebble'],
      ['sand and gravel'],
    ]);
    // a title of 24 px and a second line of 16, a panel of 150, an axis of 40
    expect(panels.map((p) => p.top)).toEqual([40, 40, 40]);
    expect(heightPx).toBe(230);
    expect(panelGrid(['polyvinylchloride-pipes'], 154).panels[0].title).toEqual(['polyvinylchlo…']);
  });
});
