/** Counts by transect and the card of a transect; figures by hand from tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import {
  departures,
  detectedByTransect,
  meanDetection,
  transectCard,
} from '../../src/present/transect-counts.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

const result = handMadeResult();
const { placed, segments, survey } = result;

describe('by transect', () => {
  it('clusters and mussels are summed over the segments', () => {
    expect([...detectedByTransect(segments, survey)]).toEqual([
      ['T1', { clusters: 2, mussels: 5 }],
      ['=T2', { clusters: 1, mussels: 7 }],
    ]);
  });

  it('what was detected and expected is summed, with the difference in roots of what was expected', () => {
    const checks = { checks: [], residuals: [], influence: [], effects: null };
    expect(departures({ placed, segments, checks: { ...checks, expected: [1, 0.5, 9] } })).toEqual([
      { transect: 'T1', detected: 2, expected: 1.5, scaled: 0.5 / Math.sqrt(1.5) },
      { transect: '=T2', detected: 1, expected: 9, scaled: -8 / 3 },
    ]);
    expect(
      departures({ placed, segments, checks: { ...checks, expected: [0, 0, 1] } })![0].scaled,
    ).toBe(2);
  });

  it('without a model nothing is expected', () => {
    expect(departures(nothingFound())).toBeNull();
  });
});

describe('the mean detection probability', () => {
  it('is known where there were secondary observers and detections', () => {
    expect(meanDetection(result)).toEqual({ p: 0.91, text: '0.91' });
    expect(meanDetection(nothingFound())).toBeNull();
    expect(meanDetection(null)).toBeNull();
    const fixed = handMadeResult();
    fixed.estimate.detection!.mean_p = 1;
    expect(meanDetection(fixed)).toBeNull();
  });
});

describe('the card of a transect', () => {
  it('names design, day, observers, counts, and what was inferred', () => {
    expect(transectCard(placed[0], { clusters: 2, mussels: 5 })).toEqual({
      title: 'T1',
      lines: [
        'belt · 2026-07-01 · Ada, then Ben',
        '2 clusters with 5 mussels',
        'end inferred from bearing and length',
      ],
    });
  });

  it('says that nothing was detected, that one observer searched, and that readings do not fit', () => {
    const [p] = structuredClone(placed);
    Object.assign(p!, { endInferred: false });
    p!.transect.secondary = null;
    p!.residuals[0].flagged = true;
    expect(transectCard(p!).lines).toEqual([
      'belt · 2026-07-01 · Ada alone',
      'searched, nothing detected',
      'waypoints and bearing do not fit together',
    ]);
  });
});
