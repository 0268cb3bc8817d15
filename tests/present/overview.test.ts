/** One survey in one line; figures by hand from tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import { OVERVIEW_HEADS, overviewRow } from '../../src/present/overview.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

describe('a line of the overview', () => {
  it.each([
    ['a number', handMadeResult(), ['184,000', '121,000 to 279,000', '14.8', '0.5 to 6.1 m', '3']],
    ['no map', withoutLake(), ['no lake-wide number', '', '', '', '3']],
    [
      'nothing detected',
      nothingFound(),
      ['none detected', 'up to 5,000 clusters', '14.8', '0.5 to 6.1 m', '3'],
    ],
  ])('%s', (_, result, cells) => {
    expect(overviewRow(result)).toEqual(cells);
    expect(cells).toHaveLength(OVERVIEW_HEADS.length);
  });

  it('has dashes for what does not exist', () => {
    const result = handMadeResult();
    result.estimate.abundance!.mussels = null;
    expect(overviewRow(result).slice(0, 2)).toEqual(['–', '–']);
  });
});
