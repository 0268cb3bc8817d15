/** Detection against a covariate, ready to be drawn, in words and in the report; values by hand. */

import { describe, expect, it } from 'vitest';
import type { DetectionAgainst, SurveyResult } from '../../shared/result.ts';
import { readDetectionAgainst } from '../../src/present/detection-against.ts';
import { againstFigure } from '../../src/publish/figures/detection-against.ts';
import { reportHtml } from '../../src/publish/report.ts';
import { numbers, reader } from '../helpers/read-figure.ts';
import { handMadeResult } from '../helpers/result.ts';

const VISIBILITY: DetectionAgainst = {
  covariate: 'visibility',
  at: [2, 4, 6],
  curves: [
    {
      observers: ['Ada'],
      design: 'belt',
      p: [0.5, 0.7, 0.9],
      lower: [0.3, 0.6, 0.8],
      upper: [0.7, 0.8, 0.996],
    },
    {
      observers: ['Ben'],
      design: 'belt',
      p: [0.2, 0.4, 0.6],
      lower: [0.1, 0.3, 0.4],
      upper: [0.3, 0.5, 0.8],
    },
  ],
  held: [
    { kind: 'depth', class: null, value: 3.26 },
    { kind: 'substrate', class: 'rock', value: 0.2 },
    { kind: 'cluster_size', class: null, value: 1 },
  ],
};

function resultWith(...detectionAgainst: DetectionAgainst[]): SurveyResult {
  return { ...handMadeResult(), detectionAgainst };
}

describe('the reading', () => {
  const [picture] = readDetectionAgainst(resultWith(VISIBILITY));

  it('has a curve an observer with values at its ends and its middle', () => {
    expect(picture).toMatchObject({
      title: 'Detection probability against visibility',
      axis: 'visibility (m)',
      down: false,
      from: 2,
      to: 6,
    });
    expect(picture.curves.map((c) => [c.name, c.place, c.marks.map((m) => m.text)])).toEqual([
      ['Ada', 0, ['50 %', '70 %', '90 %']],
      ['Ben', 1, ['20 %', '40 %', '60 %']],
    ]);
    expect(picture.described).toContain('Ben: 20 % at 2 m, 40 % at 4 m, 60 % at 6 m');
  });

  it('has the middle value where the middle of a logarithmic axis is', () => {
    const sizes = { ...VISIBILITY, covariate: 'cluster_size' as const, at: [1, 4, 10, 20] };
    const curves = VISIBILITY.curves.map((c) => ({
      ...c,
      p: [...c.p, 0.95],
      lower: [...c.lower, 0.9],
      upper: [...c.upper, 0.98],
    }));
    const [read] = readDetectionAgainst(resultWith({ ...sizes, curves }));
    // by hand: √(1 × 20) = 4.5
    expect(read.curves[0].marks.map((m) => m.value)).toEqual([1, 4, 20]);
  });

  it('says what the others are held at', () => {
    expect(picture.note).toContain(
      'Held at the means over the searched area: depth 3.3 m, substrates in their shares.',
    );
    expect(picture.note).toContain('The cluster is a single mussel.');
    expect(picture.note).toContain('95 % confidence interval');
  });

  it('has the same in a table, with limits that never promise all', () => {
    expect(picture.table.columns).toEqual(['Visibility (m)', 'Ada', 'Ben']);
    expect(picture.table.rows[2]).toEqual([
      '6 m',
      '90 % (80 % to over 99 %)',
      '60 % (40 % to 80 %)',
    ]);
  });

  it('has a row an observer for narrow columns', () => {
    expect(picture.byObserver.columns).toEqual([
      'Observer',
      'visibility 2 m',
      'visibility 4 m',
      'visibility 6 m',
    ]);
    expect(picture.byObserver.rows[1]).toEqual([
      'Ben',
      '20 % (10 % to 30 %)',
      '40 % (30 % to 50 %)',
      '60 % (40 % to 80 %)',
    ]);
  });

  it('is in feet for readers of feet, depth downwards', () => {
    const depth = { ...VISIBILITY, covariate: 'depth' as const };
    const [inFeet] = readDetectionAgainst(resultWith(depth), 'imperial');
    expect(inFeet).toMatchObject({ axis: 'depth (ft)', down: true });
    // 2 to 6 m are 6.6 to 19.7 ft
    expect(inFeet.ticks.map((t) => t.label)).toEqual(['10', '15']);
    expect(inFeet.table.rows[0][0]).toBe('7 ft');
  });

  it('tells designs apart where there are both', () => {
    const [ada, ben] = VISIBILITY.curves;
    const both = { ...VISIBILITY, curves: [ada, { ...ben, design: 'distance' as const }] };
    const [read] = readDetectionAgainst(resultWith(both));
    expect(read.curves.map((c) => c.name)).toEqual(['Ada, belt', 'Ben, distance']);
    expect(read.note).toContain('On distance transects: at perpendicular distance 0.');
  });
});

describe('the report', () => {
  it('draws a panel an observer, the curve at its values', () => {
    const svg = againstFigure(readDetectionAgainst(resultWith(VISIBILITY))[0]).text;
    const share = reader(svg, 'y', '0 %', '100 %');
    const own = [...svg.matchAll(/class="own" points="([^"]+)"/g)].map((m) =>
      (m[1] ?? '').split(' ').map((at) => share(Number(at.split(',')[1]))),
    );
    expect(own).toHaveLength(2);
    [50, 70, 90].forEach((p, i) => {
      expect(own[0][i]).toBeCloseTo(p, 0);
    });
    // Ada's discs
    expect(numbers(svg, /<circle cx="([\d.]+)"/g)).toHaveLength(3);
  });

  it('has it where the model has a covariate, and says nothing where it has none', () => {
    expect(reportHtml(resultWith(VISIBILITY))).toContain(
      'Detection probability against visibility',
    );
    expect(reportHtml(resultWith())).not.toContain('against visibility');
  });
});
