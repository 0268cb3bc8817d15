/** Which files a result has, and that no figure is lost in silence. */

import { describe, expect, it } from 'vitest';
import { publish, RESULT_FILES } from '../../src/publish/index.ts';
import { handMadeEstimate } from '../helpers/estimate.ts';
import { handMadeResult, withoutLake } from '../helpers/result.ts';

describe('publish', () => {
  it('gives every file of a result, and no other', () => {
    expect([...publish(handMadeResult()).keys()].sort()).toEqual([...RESULT_FILES].sort());
    expect([...publish(withoutLake()).keys()].sort()).toEqual(
      RESULT_FILES.filter((name) => name !== 'grid.tif').sort(),
    );
  });

  it('writes estimate.json as it is, with the files it was made from', () => {
    expect(JSON.parse(publish(handMadeResult()).get('estimate.json') as string)).toEqual({
      ...handMadeEstimate(),
      inputs: handMadeResult().inputs,
    });
  });

  it('fails on a figure that is not finite instead of writing null', () => {
    const result = handMadeResult();
    result.estimate.abundance!.clusters.se = Number.NaN;
    expect(() => publish(result)).toThrow(
      'got NaN for "se" in the result, expected a finite number or null',
    );
  });
});
