/** Detection probabilities, perpendicular distances, cluster sizes as drawn; figures are those of tests/helpers/checked.ts, by hand. */

import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { readSizes } from '../../src/present/cluster-sizes.ts';
import { readDetection } from '../../src/present/detection.ts';
import { readDistances } from '../../src/present/detection-function.ts';
import { detectionFigure } from '../../src/publish/figures/detection.ts';
import { distanceFigure } from '../../src/publish/figures/distances.ts';
import { sizeFigure } from '../../src/publish/figures/sizes.ts';
import { checkedResult, loneDiver, MEAN_SIGHT } from '../helpers/checked.ts';
import { numbers, reader, ticks } from '../helpers/read-figure.ts';
import { nothingFound } from '../helpers/result.ts';

const probabilities = (result: SurveyResult) => detectionFigure(readDetection(result))?.text ?? '';
const distances = (result: SurveyResult) => distanceFigure(readDistances(result))?.text ?? '';

describe('detection probability of each observer', () => {
  const svg = probabilities(checkedResult());

  it('puts marks at the probability and whiskers from limit to limit', () => {
    const share = reader(svg, 'x', '0 %', '100 %');
    // Ada comes first in the alphabet: a disc
    expect(share(numbers(svg, /<circle cx="([\d.]+)"/g)[0] ?? 0)).toBeCloseTo(74, 0);
    const whiskers = [
      ...svg.matchAll(/<line x1="([\d.]+)" x2="([\d.]+)" [^>]*stroke-width="2"\/>/g),
    ];
    expect(whiskers).toHaveLength(3);
    const last = whiskers
      .at(-1)
      ?.slice(1, 3)
      .map((at) => share(Number(at)));
    expect(last?.[0]).toBeCloseTo(25, 0);
    expect(last?.[1]).toBeCloseTo(75, 0);
  });

  it('tells belts from distance transects, observers by shape, and gives the figures', () => {
    expect(svg).toContain('On belt transects');
    expect(svg).toContain('On distance transects, on the line');
    expect(svg).toContain('74 % (58 % to 85 %)');
    expect(svg).toContain('Ben, on distance transects, on the line: 50 % (25 % to 75 %)');
    // Ben's square stands twice: belt and distance
    expect(svg.match(/<polygon/g)).toHaveLength(2);
  });

  it('is left out where none was estimated', () => {
    expect(detectionFigure(readDetection(loneDiver()))).toBeNull();
    expect(detectionFigure(readDetection(nothingFound()))).toBeNull();
  });

  it('says where a probability is taken and not estimated', () => {
    const result = checkedResult();
    const ben = result.estimate.detection?.observers.find(
      (o) => o.design === 'belt' && o.observer === 'Ben',
    );
    Object.assign(ben ?? {}, { p: 1, se: null, lower: null, upper: null });
    expect(probabilities(result)).toContain('100 %, taken');
  });
});

describe('detections by perpendicular distance', () => {
  const svg = distances(checkedResult());
  const perM = reader(svg, 'y', '0', '50');
  const distance = reader(svg, 'x', '0', '0.4');
  const line = (text: string) =>
    [...text.matchAll(/<polyline points="([^"]+)"/g)].flatMap((m) =>
      (m[1] ?? '').split(' ').map((p) => p.split(',').map(Number)),
    );

  it('has a bar a class as high as detections per metre, with the number above', () => {
    const tops = numbers(svg, /<rect class="observed" x="[\d.]+" y="([\d.]+)"/g).map(perM);
    // 25, 10, 12, 8 and 5 in 0.2 m each; a tenth of a unit of the drawing is 0.08
    for (const [i, n] of [25, 10, 12, 8, 5].entries())
      expect(Math.abs(tops[i] - 5 * n)).toBeLessThan(0.1);
    expect(numbers(svg, /<text class="count"[^>]*>(\d+)</g)).toEqual([25, 10, 12, 8, 5]);
    const lefts = numbers(svg, /<rect class="observed" x="([\d.]+)"/g).map(distance);
    expect(lefts[3]).toBeCloseTo(0.6, 2);
  });

  it('draws what is expected: 100 a metre on the line, 100 e⁻² at 1 m', () => {
    const at = (i: number) => perM(line(svg).at(i)?.[1] ?? 0);
    // a tenth of a unit of the drawing is 0.08 a metre
    expect(Math.abs(at(0) - 100)).toBeLessThan(0.1);
    expect(Math.abs(at(-1) - 100 * Math.exp(-2))).toBeLessThan(0.1);
    expect(distance(line(svg)[0]?.[0] ?? 1)).toBeCloseTo(0, 2);
    expect(distance(line(svg).at(-1)?.[0] ?? 0)).toBeCloseTo(1, 2);
  });

  it('has the detection function on the scale to the right: 100 % at 100 a metre', () => {
    const [at] = numbers(svg, /y="([\d.]+)">100 %</g);
    // the text stands 5 units below its tick
    expect(Math.abs(perM((at ?? 0) - 5) - 100)).toBeLessThan(0.5);
    expect(svg).toContain('g(y)');
  });

  it('gives the figures in its description', () => {
    expect(svg).toContain('0.2 m to 0.4 m: 10 detected,');
  });

  it('is left out without distance transects', () => {
    expect(distanceFigure(readDistances(loneDiver()))).toBeNull();
  });

  it('has no second scale where transects differ in width', () => {
    const result = checkedResult();
    Object.assign(result.expectedDetections?.byDistance ?? {}, { perMetreAtOne: null });
    const text = distances(result);
    expect(text).toContain('<polyline');
    expect(text).not.toContain('g(y)');
    expect(ticks(text, 'x').has('0.8')).toBe(true);
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
  it('are drawn as bars and diamonds on one scale', () => {
    const svg = sizeFigure(readSizes(checkedResult()))?.text ?? '';
    const clusters = reader(svg, 'y', '0', '1');
    const tops = numbers(svg, /<rect class="observed" x="[\d.]+" y="([\d.]+)"/g).map(clusters);
    expect(tops).toHaveLength(7);
    expect(tops[0]).toBeCloseTo(1, 2);
    expect(tops[1]).toBeCloseTo(0, 2);
    // the top corner of a diamond is 6.5 units above its middle, as at the first class: 1.3333
    const corners = numbers(svg, /<polygon points="[\d.]+,([\d.]+)/g);
    expect(clusters((corners[0] ?? 0) + 6.5)).toBeCloseTo(4 / 3, 1);
  });

  it('are left out where there are single mussels only, or nothing', () => {
    expect(sizeFigure(readSizes(loneDiver()))).toBeNull();
    expect(sizeFigure(readSizes(nothingFound()))).toBeNull();
  });
});
