/** All that is shown of the checks: each picture is there when it can be, and only then. */

import { expect, it } from 'vitest';
import { readChecking, verdictOn, whyUnchecked } from '../../src/present/checking.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

it('brings the verdicts and what stands behind them', () => {
  const checking = readChecking(checkedResult(), 1)!;
  expect(checking.checks).toHaveLength(6);
  expect(checking.sentence).toContain('Of 6 checks');
  expect(checking.observed.observer?.groups[0]?.rows).toHaveLength(2);
  expect(checking.observed.substrate?.of).toBe('substrate');
  expect(checking.residuals?.points).toHaveLength(2);
  expect(checking.influence?.shown).toHaveLength(1);
  expect(verdictOn(checking, 'depth')?.verdict).toBe('doubtful');
  expect(verdictOn(checking, 'substrate')).toBeNull();
});

it('is null where the model was not checked, and says why', () => {
  expect(readChecking(handMadeResult(), 1)).toBeNull();
  expect(whyUnchecked(handMadeResult())).toBe('The model was not checked.');
  expect(whyUnchecked(nothingFound())).toBe('Nothing was detected, so there is no model to check.');
});
