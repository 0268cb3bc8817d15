/** Detection probabilities in words and rows, for report, terminal and page. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { clustersPresent } from '../../src/present/clusters-present.ts';
import { readDetection } from '../../src/present/detection.ts';
import { detectionOpening, ofTen } from '../../src/present/detection-opening.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

function withDetection(changed: Partial<NonNullable<Estimate['detection']>>): SurveyResult {
  const result = handMadeResult();
  if (result.estimate.detection === null) throw new Error('the helper has a detection');
  Object.assign(result.estimate.detection, changed);
  return result;
}
const known = { p: 0.9, se: 0.02, lower: 0.8, upper: 0.95 };
const taken = { p: 1, se: null, lower: null, upper: null };

describe('rows', () => {
  it('hold each observer with the probability and its interval in whole percent', () => {
    const [belts] = readDetection(handMadeResult())?.groups ?? [];
    expect(belts).toMatchObject({ design: 'belt', heading: 'On belt transects', estimated: true });
    expect(belts?.observers.map((o) => [o.label, o.share, o.interval, o.se])).toEqual([
      ['Ada', '74 %', '58 % to 85 %', '0.070'],
      ['Ben', '63 %', '49 % to 74 %', '0.065'],
    ]);
    expect(belts?.observers.map((o) => o.observers)).toEqual([
      [{ name: 'Ada', place: 0 }],
      [{ name: 'Ben', place: 1 }],
    ]);
  });

  it('have a pair once, whoever went first, and each design by itself', () => {
    const reading = readDetection(
      withDetection({
        observers: [
          { observer: 'Ada', design: 'belt', ...known },
          { observer: 'Ben', design: 'belt', ...known },
          { observer: 'Ada', design: 'distance', ...known },
        ],
        pairs: [
          { primary: 'Ben', secondary: 'Ada', design: 'belt', ...known },
          { primary: 'Ada', secondary: 'Ben', design: 'belt', ...known },
        ],
      }),
    );
    expect(
      reading?.groups.map((g) => [g.design, g.observers.length, g.pairs.map((p) => p.label)]),
    ).toEqual([
      ['belt', 2, ['Ada and Ben']],
      ['distance', 1, []],
    ]);
    expect(reading?.groups[0]?.pairs[0]).toMatchObject({ lower: 0.8, upper: 0.95 });
    expect(reading?.note).toContain('at perpendicular distance 0');
  });

  it('tell a probability that was taken as 1 from one at its boundary', () => {
    const reading = readDetection(
      withDetection({
        observers: [
          { observer: 'Ada', design: 'belt', ...taken },
          { observer: 'Ada', design: 'distance', ...taken, lower: 0.8, upper: 1 },
        ],
        pairs: [],
        fixed: 'p=1',
      }),
    );
    expect(reading?.groups.map((g) => [g.design, g.estimated])).toEqual([
      ['belt', false],
      ['distance', true],
    ]);
    expect(reading?.groups.map((g) => g.observers[0]?.interval)).toEqual([null, '80 % to 100 %']);
    expect(reading?.described).toContain('Ada, on belt transects: taken as 1');
    expect(reading?.fixed).toContain('behind the primary observer');
  });

  it('never show as 100 % what is less', () => {
    const reading = readDetection(
      withDetection({ observers: [{ observer: 'Ada', design: 'belt', ...known, p: 0.9991 }] }),
    );
    expect(reading?.groups[0]?.observers[0]?.share).toBe('over 99 %');
  });

  it('do not exist when nothing was detected', () => {
    expect(readDetection(nothingFound())).toBeNull();
  });
});

it('a share of ten in words that never promise all or nothing', () => {
  expect([0.716, 0.5, 0.06, 0.94].map(ofTen)).toEqual(['seven', 'five', 'one', 'nine']);
  expect([0.95, 0.99, 1].map(ofTen)).toEqual(Array(3).fill('more than nine'));
  expect([0.04, 0].map(ofTen)).toEqual(Array(2).fill('fewer than one'));
});

describe('clusters detected and present', () => {
  it('divides the detections by the mean detection probability', () => {
    // two by the primary and one by the secondary observer, of 3/0.75 = 4
    const clusters = clustersPresent(withDetection({ mean_p: 0.75 }));
    expect(clusters?.present).toBe(4);
    expect(clusters?.parts.map((p) => [p.kind, p.value, p.text])).toEqual([
      ['primary', 2, '2'],
      ['secondary', 1, '1'],
      ['missed', 1, 'about 1'],
    ]);
    expect(clusters?.described).toBe(
      'Of about 4 clusters in the searched strips 3 were detected: 2 by the primary observer, 1 more by the secondary observer.',
    );
    expect(clusters?.note).toBeNull();
  });

  it('says that misses on the line are not in it where nobody searched behind', () => {
    const clusters = clustersPresent(withDetection({ mean_p: 1, fixed: 'p=1' }));
    expect(clusters?.parts.map((p) => p.kind)).toEqual(['primary', 'secondary']);
    expect(clusters?.note).toContain('what they missed on the line');
  });

  it('is not known when nothing was detected', () => {
    expect(clustersPresent(nothingFound())).toBeNull();
  });
});

describe('the opening', () => {
  it('says how many of ten were detected', () => {
    const { sentence, lead } = detectionOpening(withDetection({ mean_p: 0.75 }));
    expect(sentence.join('')).toBe(
      'Of every ten clusters in the searched strips about eight were detected.',
    );
    expect(lead).toBe(
      'A detection probability of 75 % over all that was searched: 3 clusters detected, about 4 present. A cluster holds 2.68 mussels on average (standard error 0.12), those that were missed included.',
    );
  });

  it('says why there is none', () => {
    expect(detectionOpening(withDetection({ fixed: 'p=1' })).sentence.join('')).toBe(
      'Detection probability is not estimable, because on some or all transects there was no secondary observer.',
    );
    expect(detectionOpening(nothingFound()).sentence.join('')).toBe(
      'Nothing was detected, so the detection probability is not estimable.',
    );
  });
});

describe('the mean beside the pairs', () => {
  it('says why it is lower, by what was searched otherwise', () => {
    const result = withDetection({ mean_p: 0.75 });
    const [first] = result.survey.transects;
    result.survey = {
      ...result.survey,
      transects: [first, { ...first, transect: 'X', secondary: null, design: 'distance' }],
    };
    expect(readDetection(result)?.why).toBe(
      'That is less than two observers detect together, because 1 of 2 transects had one observer only, and on distance transects detection falls away from the line.',
    );
  });

  it('is silent where the mean is no lower, or nothing explains it', () => {
    expect(readDetection(withDetection({ mean_p: 0.95 }))?.why).toBeNull();
  });

  it('tells what the secondary observers added where there was one', () => {
    const result = handMadeResult();
    const pair = result.survey.transects.find((t) => t.secondary !== null);
    if (pair === undefined) throw new Error('the helper has a pair');
    const [one] = result.survey.detections;
    const by = (role: 'primary' | 'secondary', transect = pair.transect) => ({
      ...one,
      role,
      transect,
    });
    const detections = [by('primary'), by('primary'), by('primary'), by('secondary')];
    result.survey = { ...result.survey, detections };
    // 1 to 3; what one observer detected alone is not in it
    expect(readDetection(result)?.added).toBe(
      'Where two observers searched, the secondary observer added 33 % on average to what the primary observer had detected (1 to 3).',
    );
    result.survey = { ...result.survey, detections: [by('primary', 'elsewhere')] };
    expect(readDetection(result)?.added).toBeNull();
  });
});
