/** Found against expected, residuals, influence; expected values are those of tests/helpers/checked.ts, by hand. */

import { describe, expect, it } from 'vitest';
import { observedByObserver } from '../../src/present/observed-expected.ts';
import { comparedFigure } from '../../src/publish/figures/compared.ts';
import { influenceCaption, influenceFigure } from '../../src/publish/figures/influence.ts';
import { residualCaption, residualFigures } from '../../src/publish/figures/residuals.ts';
import { checkedResult } from '../helpers/checked.ts';
import { numbers, reader, ticks } from '../helpers/read-figure.ts';
import { handMadeResult } from '../helpers/result.ts';

describe('detected against expected', () => {
  const both = checkedResult().estimate.checks;
  both.by_diver[1] = { ...both.by_diver[1]!, observer: 'Ben <b>', design: 'distance' };
  const svg = comparedFigure(observedByObserver(both)!).text;

  it('puts a disc at what was detected and a diamond at what was expected', () => {
    const clusters = reader(svg, 'x', '0', '20');
    // the first disc is the legend's
    const discs = numbers(svg, /<circle cx="([\d.]+)"/g).slice(1);
    expect(discs.map(clusters).map(Math.round)).toEqual([30, 12]);
    // a diamond's first corner is above its middle
    const diamonds = numbers(svg, /<polygon points="([\d.]+),/g).slice(1);
    expect(diamonds.map(clusters).map(Math.round)).toEqual([40, 10]);
  });

  it('gives the figures under the headings, and escapes names', () => {
    expect(svg).toContain('Belt transects: Ada, primary: 30 detected, 40.0 expected. Distance');
    expect(svg).toMatch(/text-anchor="end">12<\/text><text [^>]*>10\.3<\/text>/);
    expect(svg).toContain('Ben &lt;b&gt;, secondary');
    expect(svg).not.toContain('<b>');
  });
});

describe('residuals', () => {
  const both = residualFigures(checkedResult())!;
  const path = (svg: string) =>
    [...svg.matchAll(/M([\d.]+) ([\d.]+)h0/g)].map((m) => [Number(m[1]), Number(m[2])] as const);

  it('stand at their value and depth, with depth running down; a class without clusters has none', () => {
    const points = path(both.depth.text);
    expect(points).toHaveLength(2);
    const value = reader(both.depth.text, 'x', '−3', '3');
    const depth = reader(both.depth.text, 'y', '0', '2');
    // segments 1 and 3 at 1.5 and 2.5 m
    expect(value(points[0]![0])).toBeCloseTo(0.5, 1);
    expect(depth(points[0]![1])).toBeCloseTo(1.5, 1);
    expect(value(points[1]![0])).toBeCloseTo(-1.25, 1);
    expect(depth(points[1]![1])).toBeCloseTo(2.5, 1);
    expect(points[1]![1]).toBeGreaterThan(points[0]![1]);
  });

  it('stand at their expected count on a log axis', () => {
    const svg = both.expected.text;
    const marks = ticks(svg, 'x');
    const decade = (at: number) =>
      (at - marks.get('0.1')!) / (marks.get('1')! - marks.get('0.1')!) - 1;
    const points = path(svg);
    expect(decade(points[0]![0])).toBeCloseTo(Math.log10(2), 2);
    expect(decade(points[1]![0])).toBeCloseTo(Math.log10(0.5), 2);
  });

  it('have dashed lines at ±1.96', () => {
    const value = reader(both.depth.text, 'x', '−3', '3');
    const dashed = numbers(both.depth.text, /<line x1="([\d.]+)"[^>]*stroke-dasharray/g).map(value);
    expect(dashed[0]).toBeCloseTo(-1.96, 1);
    expect(dashed[1]).toBeCloseTo(1.96, 1);
  });

  it('say how many lie between the lines', () => {
    expect(residualCaption(checkedResult())).toContain('95 % lie between');
    expect(residualCaption(checkedResult())).toContain('100 % do.');
    expect(both.depth.text).toContain('2 segments; residuals from −1.3 to 0.5');
  });

  it('are thinned when very many, the far ones kept, and say so', () => {
    const result = checkedResult();
    const n = 7001;
    const [segment] = result.segments;
    result.segments = Array.from({ length: n }, () => segment!);
    result.checks!.expected = new Array(n).fill(1);
    result.checks!.residuals = Array.from({ length: n }, (_, i) => (i === 1 ? 4.5 : 0.1));
    // every third of 7,001 is 2,334, and the one at 4.5
    expect(path(residualFigures(result)!.depth.text)).toHaveLength(2335);
    expect(residualCaption(result)).toContain('Drawn: 2,335 of 7,001 segments');
  });

  it('are left out where there are none', () => {
    expect(residualFigures(handMadeResult())).toBeNull();
    const result = checkedResult();
    result.checks!.residuals = [null, null, null];
    expect(residualFigures(result)).toBeNull();
  });
});

describe('influence', () => {
  it('sorts transects by how far the total moves without them', () => {
    const svg = influenceFigure(checkedResult())!.text;
    expect(svg).toContain('without =T2 −12.5 %; without T1 +4.0 %.');
    const change = reader(svg, 'x', '−20 %', '+20 %');
    const bars = [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="12"/g)];
    expect(bars).toHaveLength(2);
    expect(change(Number(bars[0]![1]))).toBeCloseTo(-12.5, 0);
    expect(change(Number(bars[1]![1]) + Number(bars[1]![2]))).toBeCloseTo(4, 0);
  });

  it('tells of the weaker ones in words, and of those that cannot be left out', () => {
    const result = checkedResult();
    const [first] = result.survey.transects;
    result.survey.transects = Array.from({ length: 18 }, (_, i) => ({
      ...first!,
      transect: `R${i}`,
    }));
    result.checks!.influence = Array.from({ length: 18 }, (_, i) => (i === 0 ? null : i / 100));
    const svg = influenceFigure(result)!.text;
    expect(svg.match(/ height="12"/g)).toHaveLength(15);
    expect(svg).toContain('R17');
    expect(svg).not.toContain('R2<');
    expect(influenceCaption(result)).toContain('The other 2 move it by 2.0 % at most.');
    expect(influenceCaption(result)).toContain('One transect cannot be left out');
  });

  it('is left out without a total', () => {
    const result = checkedResult();
    result.checks!.influence = [null, null];
    expect(influenceFigure(result)).toBeNull();
  });
});
