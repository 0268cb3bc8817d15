/** Density against depth, and what holds for every figure of a report; expected values are those of the helpers, by hand. */

import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { roundSteps } from '../../shared/round-numbers.ts';
import { formatDigits } from '../../shared/units.ts';
import { densityPicture } from '../../src/present/density-curve.ts';
import { densityFigure } from '../../src/publish/figures/density.ts';
import { shortened } from '../../src/publish/figures/frame.ts';
import { reportHtml } from '../../src/publish/report.ts';
import { checkedResult, loneDiver } from '../helpers/checked.ts';
import { ticks } from '../helpers/read-figure.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const SAID = {
  title: 'Density',
  note: '',
  described: 'by depth',
  axis: 'mussels per m²',
  mark: (x: number) => formatDigits(x, 1),
  names: ['sand', 'gravel', 'rock', 'sand and gravel'],
};

describe('density against depth', () => {
  const svg = densityFigure(densityPicture(handMadeResult())!, SAID).text;
  const lines = (text: string, style: string) =>
    [
      ...text.matchAll(new RegExp(`<polyline points="([^"]+)" fill="none" class="${style}"`, 'g')),
    ].map((m) => m[1].split(' ').map((p) => p.split(',').map(Number) as [number, number]));

  it('has a panel a substrate, with the other substrates thin behind', () => {
    for (const name of ['sand', 'gravel', 'sand and gravel', 'rock'])
      expect(svg).toContain(`>${name}<`);
    expect(lines(svg, 'own')).toHaveLength(4);
    expect(lines(svg, 'other')).toHaveLength(4 * 3);
    expect(svg.match(/<polygon/g)).toHaveLength(4);
  });

  it('lets depth run down and density run to the right', () => {
    const sand = lines(svg, 'own')[0];
    const ys = sand.map(([, y]) => y);
    expect(ys).toEqual([...ys].sort((a, b) => a - b));
    // rock behind sand, 50/3 times as dense: to the right by the same distance at every depth, on a log axis
    const rock = lines(svg, 'other')[2];
    const shifts = rock.map(([x], i) => x - sand[i][0]);
    for (const shift of shifts) expect(Math.abs(shift - shifts[0])).toBeLessThan(0.25);
    const marks = ticks(svg, 'x');
    // both panels of a column have the same ticks: a decade is as wide in each
    const decade = marks.get('10')! - marks.get('1')!;
    expect(shifts[0] / decade).toBeCloseTo(Math.log10(50 / 3), 1);
  });

  it('tells substrates apart by line style, not by colour', () => {
    const own = [...svg.matchAll(/class="own" stroke="([^"]*)"[^>]*stroke-dasharray="([^"]*)"/g)];
    expect(new Set(own.map((m) => m[2])).size).toBe(4);
    expect(new Set(own.map((m) => m[1])).size).toBe(1);
  });

  it('skips limits that do not exist and densities of 0', () => {
    const broken = {
      substrate: ['silt'],
      depthM: [1, 2, 3],
      musselsPerM2: [0, 0.5, 0.4],
      lower: [Number.NaN, Number.NaN, Number.NaN],
      upper: [Number.NaN, Number.POSITIVE_INFINITY, Number.NaN],
    };
    const { domain } = handMadeResult();
    const text = densityFigure(densityPicture({ curves: [broken], domain })!, SAID).text;
    expect(text).not.toMatch(/NaN|Infinity/);
    expect(text).not.toContain('<polygon');
  });
});

describe('every figure of a report', () => {
  const cases: [string, SurveyResult][] = [
    ['with checks', checkedResult()],
    ['without a lake', { ...withoutLake(), checks: checkedResult().checks }],
    ['one diver, belts, lone mussels', loneDiver()],
    ['nothing found', nothingFound()],
  ];

  it.each(cases)('has a role, a name and a description of its own: %s', (_, result) => {
    const text = reportHtml(result);
    const ids = [...text.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [svg] of text.matchAll(/<svg(?![^>]*aria-hidden)[^>]*>/g)) {
      const labels = svg.match(/aria-labelledby="([^"]+)"/)?.[1];
      expect(svg).toContain('role="img"');
      for (const label of labels!.split(' ')) {
        const told = text.match(new RegExp(`<(?:title|desc) id="${label}">([^<]+)<`))?.[1];
        expect(told?.length, label).toBeGreaterThan(10);
      }
    }
  });

  it('is there when there is something to draw', () => {
    const drawn = (result: SurveyResult) =>
      [...reportHtml(result).matchAll(/<title id="([^"]+)-title">/g)].map((m) => m[1]);
    expect(drawn(checkedResult())).toEqual([
      'lake-map',
      'density',
      'detection',
      'distances',
      'sizes',
      'map-cv',
      'margins',
      'by-observer',
      'by-substrate',
      'by-depth',
      'residuals-depth',
      'residuals-expected',
      'influence',
    ]);
    expect(drawn(loneDiver())).not.toContain('distances');
    expect(drawn(loneDiver())).not.toContain('sizes');
    // where nothing was detected the map still shows what was searched
    expect(drawn(nothingFound())).toEqual(['lake-map']);
  });

  it.each(cases)('has finite numbers only: %s', (_, result) => {
    expect(reportHtml(result)).not.toMatch(/undefined|NaN|\bnull\b|\[object|Infinity/);
  });

  it('escapes names from files', () => {
    const result = checkedResult();
    const evil = '<script>"&';
    result.survey.transects[0].transect = evil;
    result.estimate.detection!.observers[0].observer = evil;
    result.estimate.checks.by_diver[0].observer = evil;
    result.estimate.checks.by_substrate[0].substrate = evil;
    result.curves[0].substrate = [evil];
    const text = reportHtml(result);
    expect(text).not.toContain('<script');
    expect(text.split('&lt;script&gt;&quot;&amp;').length).toBeGreaterThan(10);
  });
});

describe('the frame', () => {
  it('steps by 1, 2 or 5 from at or below the least to at or above the greatest', () => {
    expect(roundSteps(0, 93, 4)).toEqual([0, 50, 100]);
    expect(roundSteps(0, 0.07, 4)).toEqual([0, 0.02, 0.04, 0.06, 0.08]);
    expect(roundSteps(0, 1000, 1)).toEqual([0, 1000]);
    expect(roundSteps(0, 6.4, 6)).toEqual([0, 2, 4, 6, 8]);
  });

  it('cuts what has no room in the middle', () => {
    expect(shortened('sand', 100)).toBe('sand');
    expect(shortened('sand+gravel+pebble', 60)).toBe('sand…ble');
  });
});
