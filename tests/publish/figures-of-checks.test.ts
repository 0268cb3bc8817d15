/** Found against expected, residuals, influence; expected values are those of tests/helpers/checked.ts, by hand. */

import { describe, expect, it } from 'vitest';
import { readInfluence } from '../../src/present/influence.ts';
import { observedByObserver } from '../../src/present/observed-expected.ts';
import { readResiduals } from '../../src/present/residuals.ts';
import { comparedFigure } from '../../src/publish/figures/compared.ts';
import { influenceCaption, influenceFigure } from '../../src/publish/figures/influence.ts';
import { residualCaption, residualFigures } from '../../src/publish/figures/residuals.ts';
import { checkedResult } from '../helpers/checked.ts';
import { numbers, reader, ticks } from '../helpers/read-figure.ts';

describe('detected against expected', () => {
  const both = checkedResult();
  const [, ben] = both.estimate.checks.by_diver;
  both.estimate.checks.by_diver[1] = { ...ben!, observer: 'Ben <b>', design: 'distance' };
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
  const residuals = readResiduals(checkedResult())!;
  const both = residualFigures(residuals);
  const path = (svg: string) =>
    [...svg.matchAll(/M([\d.]+) ([\d.]+)h0/g)].map((m) => [Number(m[1]), Number(m[2])] as const);

  it('stand at their value and depth, with depth running down; a class without clusters has none', () => {
    const points = path(both.depth.text);
    expect(points).toHaveLength(2);
    const value = reader(both.depth.text, 'x', '−3', '3');
    const depth = reader(both.depth.text, 'y', '0', '2');
    // segments 1 and 3 at 1.5 and 2.5 m
    expect(value(points[0][0])).toBeCloseTo(0.5, 1);
    expect(depth(points[0][1])).toBeCloseTo(1.5, 1);
    expect(value(points[1][0])).toBeCloseTo(-1.25, 1);
    expect(depth(points[1][1])).toBeCloseTo(2.5, 1);
    expect(points[1][1]).toBeGreaterThan(points[0][1]);
  });

  it('stand at their expected count on a log axis', () => {
    const svg = both.expected.text;
    const marks = ticks(svg, 'x');
    const decade = (at: number) =>
      (at - marks.get('0.1')!) / (marks.get('1')! - marks.get('0.1')!) - 1;
    const points = path(svg);
    expect(decade(points[0][0])).toBeCloseTo(Math.log10(2), 2);
    expect(decade(points[1][0])).toBeCloseTo(Math.log10(0.5), 2);
  });

  it('have dashed lines at ±1.96', () => {
    const value = reader(both.depth.text, 'x', '−3', '3');
    const dashed = numbers(both.depth.text, /<line x1="([\d.]+)"[^>]*stroke-dasharray/g).map(value);
    expect(dashed[0]).toBeCloseTo(-1.96, 1);
    expect(dashed[1]).toBeCloseTo(1.96, 1);
  });

  it('say how many lie between the lines, and how many of them are drawn', () => {
    expect(residualCaption(residuals)).toBe(
      'One dot a segment, large where something was detected. Under the right model 95 % lie between the dashed lines, with no pattern; 100 % do.',
    );
    expect(both.depth.text).toContain('2 segments; residuals from −1.3 to +0.5');
    const [point] = residuals.points;
    const many = { ...residuals, points: Array.from({ length: 7001 }, () => point!) };
    // every third
    expect(path(residualFigures(many).depth.text)).toHaveLength(2334);
    expect(residualCaption(many)).toContain('Drawn: 2,334 of 7,001 segments');
  });
});

describe('influence', () => {
  it('sorts transects by how far the total moves without them', () => {
    const influence = readInfluence(checkedResult(), 15)!;
    const svg = influenceFigure(influence).text;
    expect(svg).toContain('without =T2 −12.5 %; without T1 +4.0 %.');
    const change = reader(svg, 'x', '−20 %', '+20 %');
    const bars = [...svg.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="12"/g)];
    expect(bars).toHaveLength(2);
    expect(change(Number(bars[0][1]))).toBeCloseTo(-12.5, 0);
    expect(change(Number(bars[1][1]) + Number(bars[1][2]))).toBeCloseTo(4, 0);
    expect(influenceCaption(influence)).toMatch(/Pale bars to the right: higher\.$/);
  });

  it('tells of the weaker ones in words', () => {
    const influence = readInfluence(checkedResult(), 1)!;
    expect(influenceFigure(influence).text.match(/ height="12"/g)).toHaveLength(1);
    expect(influenceCaption(influence)).toContain('The other one moves it by 4.0 % at most.');
  });
});
