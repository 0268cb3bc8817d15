/** Residuals of the segments; figures of tests/helpers/checked.ts, by hand. */

import { describe, expect, it } from 'vitest';
import {
  largestResiduals,
  readResiduals,
  residualGloss,
  residualsOfTransect,
  signedText,
  thinned,
} from '../../src/present/residuals.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult } from '../helpers/result.ts';

describe('residuals', () => {
  const residuals = readResiduals(checkedResult())!;

  it('belong to their segments; segments without one are left out', () => {
    // segments 1 and 3; the second is on a class without a detection
    expect(residuals.points).toMatchObject([
      { segment: 1, transect: 'T1', substrate: 'sand', depthM: 1.5, residual: 0.5, expected: 2 },
      { segment: 3, transect: '=T2', depthM: 2.5, residual: -1.25, residualText: '−1.3' },
    ]);
    expect(residuals.transects).toEqual(['T1', '=T2']);
  });

  it('lie within ±1.96 in 95 of 100 under the right model', () => {
    // the 0.975 quantile of the standard normal distribution (any table)
    expect(residuals.limit).toBeCloseTo(1.959964, 6);
    expect(residualGloss(residuals)).toBe(
      'Under the right model 95 % lie between the dashed lines, with no pattern; 100 % do.',
    );
    expect(residuals.described).toBe(
      '2 segments; residuals from −1.3 to +0.5, 100 % of them within 1.96 of 0.',
    );
    const far = checkedResult();
    far.checks!.residuals = [0.5, 1.97, -4];
    // 1 of 3
    expect(readResiduals(far)!.shareWithin).toBe('33 %');
    expect(readResiduals(far)!.reach).toBe(4);
    expect(residuals.reach).toBe(3);
  });

  it('are null where there are none', () => {
    expect(readResiduals(handMadeResult())).toBeNull();
    const result = checkedResult();
    result.checks!.residuals = [null, null, null];
    expect(readResiduals(result)).toBeNull();
  });

  it('name substrates in the order of the analysis, mixtures after what they begin with', () => {
    const result = checkedResult();
    const names = [['rock'], ['sand', 'gravel'], ['sand'], ['gravel'], ['sand']];
    const [segment] = result.segments;
    result.segments = names.map((substrate) => ({ ...segment!, substrate }));
    result.checks!.residuals = names.map(() => 0);
    result.checks!.expected = names.map(() => 1);
    result.analysis.substrates = ['silt', 'sand', 'gravel', 'rock'];
    expect(readResiduals(result)!.substrates).toEqual([
      'sand',
      'sand and gravel',
      'gravel',
      'rock',
    ]);
  });

  it('are told by transect', () => {
    expect(residualsOfTransect(residuals, 'T1')).toBe('1 segment, residuals +0.5');
    expect(residualsOfTransect(residuals, 'T9')).toBeNull();
  });

  it('give the largest first', () => {
    expect(largestResiduals(residuals, 1).map((p) => p.segment)).toEqual([3]);
  });

  it('are thinned for a drawing when very many, the far ones kept', () => {
    const result = checkedResult();
    const n = 7001;
    const [segment] = result.segments;
    result.segments = Array.from({ length: n }, () => segment!);
    result.checks!.expected = new Array(n).fill(1);
    result.checks!.residuals = Array.from({ length: n }, (_, i) => (i === 1 ? 4.5 : 0.1));
    const many = readResiduals(result)!;
    // every third of 7,001 is 2,334, and the one at 4.5
    expect(thinned(many, 3000)).toHaveLength(2335);
    expect(thinned(many, 8000)).toHaveLength(n);
  });
});

it('signed numbers have a sign, but 0 has none', () => {
  expect([1.26, -0.04, 0, -3, 2].map(signedText)).toEqual(['+1.3', '0', '0', '−3', '+2']);
});
