/** What divers see, offsets, cluster sizes; expected values are those of tests/helpers/checked.ts, by hand. */

import { describe, expect, it } from 'vitest';
import type { Coefficient } from '../../shared/estimate.ts';
import { detectionFigure } from '../../src/publish/figures/detection.ts';
import { offsetCaption, offsetFigure, sightAt } from '../../src/publish/figures/offsets.ts';
import { sizeCaption, sizeClasses, sizeFigure } from '../../src/publish/figures/sizes.ts';
import { checkedResult, loneDiver, MEAN_SIGHT } from '../helpers/checked.ts';
import { numbers, reader, ticks } from '../helpers/read-figure.ts';
import { nothingFound } from '../helpers/result.ts';

describe('detection by diver', () => {
  const svg = detectionFigure(checkedResult().estimate.detection)!.text;

  it('puts marks at the share and whiskers from limit to limit', () => {
    const share = reader(svg, 'x', '0 %', '100 %');
    // Ada is the first diver: a disc
    expect(share(numbers(svg, /<circle cx="([\d.]+)"/g)[0]!)).toBeCloseTo(74, 0);
    const whiskers = [
      ...svg.matchAll(/<line x1="([\d.]+)" x2="([\d.]+)" [^>]*stroke-width="2"\/>/g),
    ];
    expect(whiskers).toHaveLength(3);
    const last = whiskers[2]!.slice(1, 3).map((at) => share(Number(at)));
    expect(last[0]).toBeCloseTo(25, 0);
    expect(last[1]).toBeCloseTo(75, 0);
  });

  it('tells belts from distance transects, divers by shape, and gives the figures', () => {
    expect(svg).toContain('on belts');
    expect(svg).toContain('at the rope of distance transects');
    expect(svg).toContain('74 % (58 to 85)');
    expect(svg).toContain('Ben at the rope of distance transects: 50 % (25 to 75)');
    // Ben's square stands twice: belt and distance
    expect(svg.match(/<polygon/g)).toHaveLength(2);
  });

  it('is left out where no share was estimated', () => {
    expect(detectionFigure(loneDiver().estimate.detection)).toBeNull();
    expect(detectionFigure(nothingFound().estimate.detection)).toBeNull();
  });

  it('takes one diver, and says where a share is taken and not estimated', () => {
    const { detection } = checkedResult().estimate;
    const [ada, ben] = detection!.observers;
    expect(detectionFigure({ ...detection!, observers: [ada!] })!.text).toContain('Ada');
    const mixed = [ada!, { ...ben!, p: 1, se: null, lower: null, upper: null }];
    expect(detectionFigure({ ...detection!, observers: mixed })!.text).toContain('100 %, taken');
  });
});

describe('offsets from the rope', () => {
  const svg = offsetFigure(checkedResult())!.text;
  const clusters = reader(svg, 'y', '0', '10');
  const offset = reader(svg, 'x', '0', '1');

  it('has a bar a class as high as the clusters found', () => {
    const tops = numbers(svg, /<rect class="found" x="[\d.]+" y="([\d.]+)"/g).map(clusters);
    expect(tops).toHaveLength(5);
    expect(tops.map(Math.round)).toEqual([25, 10, 12, 8, 5]);
    expect(offset(numbers(svg, /<rect class="found" x="([\d.]+)"/g)[3]!)).toBeCloseTo(0.6, 2);
  });

  it('draws the half-normal at the height of the expected counts: 20 at the rope, 20 e⁻² at 1 m', () => {
    const [points] = [...svg.matchAll(/<polyline points="([^"]+)"/g)].map((m) =>
      m[1]!.split(' ').map((p) => p.split(',').map(Number) as [number, number]),
    );
    const at = (i: number) => clusters(points!.at(i)![1]);
    // 100 × MEAN_SIGHT expected in 5 classes under a mean sight of MEAN_SIGHT; a unit of the drawing is 0.16 clusters
    expect(Math.abs(at(0) - 20)).toBeLessThan(0.1);
    expect(Math.abs(at(-1) - 20 * Math.exp(-2))).toBeLessThan(0.1);
    expect(offset(points![0]![0])).toBeCloseTo(0, 2);
    expect(offset(points!.at(-1)![0])).toBeCloseTo(1, 2);
  });

  it('gives the figures in its description', () => {
    expect(svg).toContain('0.2–0.4 m: 10 found,');
  });

  it('is left out without distance transects', () => {
    expect(offsetFigure(loneDiver())).toBeNull();
  });

  it('leaves the curve out, and says so, where transects differ in width', () => {
    const result = checkedResult();
    const [first, second] = result.survey.transects;
    result.survey.transects = [{ ...first!, design: 'distance', widthM: 1 }, second!];
    const text = offsetFigure(result)!.text;
    expect(text).not.toContain('<polyline');
    expect(text).toContain('share of the half width searched');
    expect(ticks(text, 'x').has('60 %')).toBe(true);
    expect(offsetCaption(result, 'point')).toContain('Transects differ in width');
  });

  const shape = (term: string, estimate: number): Coefficient => ({
    part: 'shape',
    term,
    kind: term === 'log_b' ? 'b' : 'sigma',
    class: null,
    level: null,
    observers: [],
    observer: null,
    design: null,
    estimate,
    se: null,
  });

  it.each([
    // all by hand from the formulas of g
    ['half-normal at σ', 'half-normal', [shape('log_sigma', Math.log(0.5))], 0.5, Math.exp(-0.5)],
    [
      'hazard-rate at σ',
      'hazard-rate',
      [shape('log_sigma', Math.log(0.3)), shape('log_b', Math.log(2))],
      0.3,
      1 - Math.exp(-1),
    ],
    ['σ → ∞: flat', 'half-normal', [], 0.9, 1],
    ['b → ∞: whole before the step', 'hazard-rate', [shape('log_sigma', Math.log(0.5))], 0.45, 1],
    ['b → ∞: nothing after it', 'hazard-rate', [shape('log_sigma', Math.log(0.5))], 0.6, 0],
  ] as const)('knows g: %s', (_, name, coefficients, offsetM, g) => {
    // 1e-6: beyond a step held at b = 80 there is left (0.5/0.6)^80 = 4.6e-7
    expect(Math.abs(sightAt(name, [...coefficients])(offsetM) - g)).toBeLessThan(1e-6);
  });

  it('names what the curve is', () => {
    const result = checkedResult();
    expect(offsetCaption(result, 'point')).toMatch(
      /\(half-normal\) is what the divers .* together/,
    );
    expect(offsetCaption(result, 'full')).toContain('what one diver sees');
    result.estimate.coefficients = [];
    expect(offsetCaption(result, 'point')).toContain('flat: sight does not fall off');
  });

  it('agrees with the mean that the helper names', () => {
    // mean of exp(−2y²) on [0, 1] by Simpson's rule with 100 steps: error below 1e-8
    let sum = 0;
    for (let i = 0; i <= 100; i++)
      sum += (i === 0 || i === 100 ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(-2 * (i / 100) ** 2);
    expect(sum / 300).toBeCloseTo(MEAN_SIGHT, 8);
  });
});

describe('cluster sizes', () => {
  it('are those found, and those of a geometric number on each substrate', () => {
    const classes = sizeClasses(checkedResult())!;
    // found: 4, 1 and 7 mussels; the largest is in the open class
    expect(classes.map((c) => c.found)).toEqual([1, 0, 0, 1, 0, 0, 1]);
    expect(classes.at(-1)).toMatchObject({ from: 7, to: null });
    // two clusters on sand (m = 1: ½, ¼, …), one on sand+gravel (m = √4 = 2: ⅓, ²⁄₉, …), by hand
    expect(classes[0]!.expected).toBeCloseTo(2 / 2 + 1 / 3, 12);
    expect(classes[1]!.expected).toBeCloseTo(2 / 4 + 2 / 9, 12);
    expect(classes.at(-1)!.expected).toBeCloseTo(2 / 64 + (2 / 3) ** 6, 12);
    expect(classes.reduce((sum, c) => sum + c.expected, 0)).toBeCloseTo(3, 12);
  });

  it('are Poisson where k left the model', () => {
    const result = checkedResult();
    result.estimate.cluster_size!.k = null;
    result.estimate.coefficients = result.estimate.coefficients.filter(
      (c) => c.term !== 'substrate:gravel',
    );
    expect(sizeClasses(result)![0]!.expected).toBeCloseTo(3 * Math.exp(-1), 12);
  });

  it('come in wider classes where clusters are large', () => {
    const result = checkedResult();
    result.survey.detections[0]!.count = 120;
    const classes = sizeClasses(result)!;
    expect(classes.map((c) => c.from)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 15, 25, 50, 100]);
    expect(classes.map((c) => c.found)).toEqual([1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1]);
    expect(sizeFigure(result)!.text).toContain('100 or more: 1 found');
  });

  it('are drawn as bars and diamonds on one scale', () => {
    const svg = sizeFigure(checkedResult())!.text;
    const clusters = reader(svg, 'y', '0', '1');
    const tops = numbers(svg, /<rect class="found" x="[\d.]+" y="([\d.]+)"/g).map(clusters);
    expect(tops).toHaveLength(7);
    expect(tops[0]).toBeCloseTo(1, 2);
    expect(tops[1]).toBeCloseTo(0, 2);
    // the top corner of a diamond is 6.5 units above its middle, as at the first class: 1.3333
    const corners = numbers(svg, /<polygon points="[\d.]+,([\d.]+)/g);
    expect(clusters(corners[0]! + 6.5)).toBeCloseTo(4 / 3, 1);
  });

  it('are left out where there are lone mussels only, or nothing', () => {
    expect(sizeFigure(loneDiver())).toBeNull();
    expect(sizeFigure(nothingFound())).toBeNull();
  });

  it('warn that what is found is not what is there when large clusters are seen better', () => {
    const { estimate } = checkedResult();
    expect(sizeCaption(estimate)).toContain('every size equally well');
    estimate.coefficients.push({
      part: 'detection',
      term: 'log_count',
      kind: 'cluster_size',
      class: null,
      level: null,
      observers: [],
      observer: null,
      design: null,
      estimate: 0.5,
      se: 0.1,
    });
    expect(sizeCaption(estimate)).toContain('Large clusters are easier to see');
  });
});
