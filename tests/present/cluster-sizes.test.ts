/** Cluster sizes, ready to be drawn. Values by hand from tests/helpers/checked.ts. */

import { describe, expect, it } from 'vitest';
import { readSizes, sizeSentence } from '../../src/present/cluster-sizes.ts';
import { checkedResult, loneDiver } from '../helpers/checked.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

describe('classes', () => {
  it('have names in full and for an axis, the last one open', () => {
    const { classes } = readSizes(checkedResult()) ?? { classes: [] };
    expect(classes[0]).toMatchObject({ name: '1', short: '1', start: '1', observedText: '1' });
    expect(classes[0]?.expectedText).toBe('1.33');
    expect(classes.at(-1)).toMatchObject({ name: '7 or more', short: '7+', start: '7+' });
    const wide = checkedResult();
    const by = wide.expectedDetections?.bySize;
    by?.classes.push(
      { from: 9, to: 14, observed: 0, expected: 0.1 },
      { from: 1000, to: 1999, observed: 0, expected: 0 },
    );
    expect(readSizes(wide)?.classes.slice(-2)).toMatchObject([
      { name: '9 to 14', short: '9–14', start: '9' },
      { name: '1,000 to 1,999', short: '1k–1999', start: '1k' },
    ]);
  });

  it('are said to be of detected clusters where detection depends on size', () => {
    const result = checkedResult();
    expect(readSizes(result)?.note).toContain('every size are taken to be detected equally well');
    Object.assign(result.expectedDetections?.bySize ?? {}, { inDetection: true });
    expect(readSizes(result)?.note).toContain('Larger clusters are detected more easily');
  });

  it('are none where there are single mussels only, or nothing', () => {
    expect(readSizes(loneDiver())).toBeNull();
    expect(readSizes(nothingFound())).toBeNull();
  });
});

describe('the mean in words', () => {
  it('includes the missed, and has its standard error', () => {
    expect(sizeSentence(handMadeResult())).toBe(
      'A cluster holds 2.68 mussels on average (standard error 0.12), those that were missed included.',
    );
  });

  it('is not said of single mussels, or of nothing', () => {
    expect(sizeSentence(loneDiver())).toBe('Every detected cluster was a single mussel.');
    expect(sizeSentence(nothingFound())).toBeNull();
  });
});
