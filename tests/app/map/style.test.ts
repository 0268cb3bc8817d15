/** The map's style: valid after the style specification's own validator, and asking nothing of any network. */

import { validateStyleMin } from '@maplibre/maplibre-gl-style-spec';
import { describe, expect, it } from 'vitest';
import { STATIONS } from '../../../src/app/contract.ts';
import { INK_NAMES, type Ink } from '../../../src/app/map/ink.ts';
import { DENSITY_BEFORE, emptyStyle } from '../../../src/app/map/layers.ts';
import { layersAt } from '../../../src/app/map/stations.ts';

const ink = Object.fromEntries(INK_NAMES.map((name) => [name, '#123456'])) as Ink;
const style = emptyStyle(ink, { line: 15, clusters: 17, ticks: 19, counts: 16 });
const names = style.layers.map((l) => l.id);

describe('the style', () => {
  it('is valid', () => {
    expect(validateStyleMin(style as never).map((e) => e.message)).toEqual([]);
  });

  it('names no address', () => {
    expect(JSON.stringify(style)).not.toMatch(/https?:|\/\/|glyphs|sprite/);
  });

  it('has no two layers of one name, and a place for the density', () => {
    expect(new Set(names).size).toBe(names.length);
    expect(names).toContain(DENSITY_BEFORE);
  });
});

describe('contours over density', () => {
  it('are not drawn where the whole lake is seen', () => {
    const layer = style.layers.find((l) => l.id === 'contours-over-density');
    expect(layer?.paint).toHaveProperty('line-opacity', [
      'step',
      ['zoom'],
      0,
      15, // transects as true lines from here
      0.4,
    ]);
    for (const station of ['density', 'lake', 'areas'] as const)
      expect(layersAt(station).has('contours')).toBe(false);
  });
});

describe('stations', () => {
  it('name only layers that there are', () => {
    for (const station of STATIONS)
      for (const name of layersAt(station)) expect([...names, 'density']).toContain(name);
  });

  it('leave no layer unseen at all of them', () => {
    const seen = new Set(STATIONS.flatMap((s) => [...layersAt(s)]));
    expect(names.filter((name) => !seen.has(name))).toEqual([]);
  });

  it('show the density where the number is read, and not where sheets are mended', () => {
    expect(STATIONS.filter((s) => layersAt(s).has('density'))).toEqual([
      'density',
      'lake',
      'areas',
    ]);
  });
});
