/** The answer, word for word; expected texts by hand from the figures in tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import { answer, answerInShort, lakeNumber, missingMaps } from '../../src/present/answer.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const COUNTED = 'On the 90 m² searched, at depths of 1.0 to 5.6 m, 12 mussels were counted.';

describe('the answer', () => {
  it('tells mussels, interval, area, depths, and what was searched', () => {
    const { headline, rest } = answer(handMadeResult());
    expect(headline).toBe(
      'About 184,000 mussels (95 % confidence interval 121,000 to 279,000) on 14.8 ha of surveyed habitat, 0.5 to 6.1 m deep.',
    );
    expect(rest).toBe(COUNTED);
  });

  it('speaks in acres and feet when asked', () => {
    // 148,000 m² / 4,046.856 = 36.57 acres; 0.54 and 6.08 m = 1.8 and 19.9 ft; 89.5 m² = 963 ft²; 1.04 and 5.58 m = 3.4 and 18.3 ft
    expect(answer(handMadeResult(), 'imperial').text).toBe(
      'About 184,000 mussels (95 % confidence interval 121,000 to 279,000) on 36.6 acres of surveyed habitat, ' +
        '2 to 20 ft deep. On the 963 ft² searched, at depths of 3 to 18 ft, 12 mussels were counted.',
    );
  });

  it('gives an upper limit, not a zero, when nothing was detected', () => {
    expect(answer(nothingFound()).text).toBe(
      'No mussels were detected on the 90 m² searched, at depths of 1.0 to 5.6 m. That does not show that there are ' +
        'none: up to 5,000 clusters could have been missed on 14.8 ha of surveyed habitat, 0.5 to 6.1 m deep (95 % ' +
        'upper limit if every cluster in the searched area was detected; more if some were missed).',
    );
  });

  it('has no limit for a lake without a map on which nothing was detected', () => {
    const result = nothingFound();
    result.estimate.abundance = null;
    expect(answer(result).rest).toBe(
      'That does not show that there are none; without a map of the lake there is no limit for it.',
    );
  });

  it('names the maps that are missing and gives the density along the transects', () => {
    expect(answer(withoutLake()).text).toBe(
      'There is no lake-wide number: the folder holds no outline.geojson, no substrate.geojson and no depth.geojson or ' +
        'depth.tif. Along the transects there were about 0.46 clusters per m² (95 % confidence interval 0.30 to 0.70), ' +
        `corrected for those that were missed. ${COUNTED}`,
    );
  });

  it('says that one transect cannot tell how transects differ', () => {
    const result = handMadeResult();
    result.estimate.data.transects = 1;
    expect(answer(result).rest).toBe(
      `${COUNTED} It all rests on one transect: how much transects differ is unknown and not in the interval, which is too narrow for the lake.`,
    );
  });

  it('says so when no mapped bed was inside', () => {
    const result = handMadeResult();
    result.estimate.abundance = null;
    expect(answer(result).headline).toBe(
      'There is no lake-wide number: no mapped bed lies within the habitats and depths that were searched.',
    );
  });

  it('counts detectable mussels only when there was no secondary observer', () => {
    const result = handMadeResult();
    result.estimate.detection!.fixed = 'p=1';
    expect(answer(result).headline).toContain('About 184,000 detectable mussels (');
    expect(answer(result).rest).toBe(
      `${COUNTED} Where no secondary observer searched, what the primary observer missed is not in this number.`,
    );
  });

  it('says that there is no interval when there is none', () => {
    const result = handMadeResult();
    Object.assign(result.estimate.abundance!.mussels!, {
      se: null,
      cv: null,
      lower: null,
      upper: null,
    });
    expect(answer(result).headline).toMatch(
      /^About 180,000 mussels \(no interval could be given\) on 14\.8 ha/,
    );
  });

  it('names the level of the interval', () => {
    const result = handMadeResult();
    result.analysis.interval = 0.8;
    expect(answer(result).headline).toContain('(80 % confidence interval 121,000 to 279,000)');
  });

  it.each([
    ['with a number', handMadeResult()],
    ['without a lake', withoutLake()],
    ['nothing detected', nothingFound()],
  ])('%s: headline and rest are the whole, and never say free, clean or absent', (_, result) => {
    for (const units of ['metric', 'imperial'] as const) {
      const { headline, rest, text } = answer(result, units);
      expect(text).toBe(`${headline} ${rest}`);
      expect(headline.endsWith('.')).toBe(true);
      expect(text).not.toMatch(/\b(free|clean|absent|absence)\b/i);
    }
  });

  it('says what surveyed habitat is, and which depths stand behind it', () => {
    expect(answer(handMadeResult()).habitat).toBe(
      'Surveyed habitat is the part of the lake that the estimate is about: mapped bed of the substrates and depths ' +
        'that were sampled. Sampled depths: 1.0 to 5.6 m, taken to hold for 0.5 to 6.1 m.',
    );
    const result = handMadeResult();
    result.survey.habitat = [];
    expect(answer(result).habitat).toBeNull();
  });

  it('says what an interval is where there is one', () => {
    expect(answer(handMadeResult()).intervals).toMatch(
      /^Every interval is a 95 % confidence interval \(the range that would hold the truth/,
    );
    expect(answer(nothingFound()).intervals).toBeNull();
  });
});

describe('in a few words', () => {
  it.each([
    [handMadeResult(), '184,000 mussels (121,000 to 279,000)'],
    [withoutLake(), 'density only, no lake-wide number'],
    [nothingFound(), 'nothing detected'],
  ])('case %#', (result, words) => {
    expect(answerInShort(result.estimate)).toBe(words);
  });

  it('clusters where there is no number of mussels', () => {
    const { estimate } = handMadeResult();
    estimate.abundance!.mussels = null;
    // se 14,500: to the thousand
    expect(answerInShort(estimate)).toBe('69,000 clusters (45,000 to 104,000)');
  });
});

describe('the number for a drawing', () => {
  it('has its limits as they are', () => {
    expect(lakeNumber(handMadeResult())).toEqual({
      estimate: '184,000',
      interval: '121,000 to 279,000',
      value: { estimate: 184_321, lower: 121_234, upper: 279_456 },
      of: 'mussels',
      noun: 'mussels',
      intervalName: '95 % confidence interval',
      limits: { lower: 121_234, upper: 279_456 },
    });
  });

  it('has no limits that a log axis cannot show', () => {
    const result = handMadeResult();
    result.estimate.abundance!.mussels!.lower = 0;
    expect(lakeNumber(result)!.limits).toBeNull();
  });

  it('does not exist without a lake, nor where nothing was detected', () => {
    expect(lakeNumber(withoutLake())).toBeNull();
    expect(lakeNumber(nothingFound())).toBeNull();
  });
});

it('names the maps that a lake-wide number needs', () => {
  expect(missingMaps({ outline: [], substrate: null, depth: null, treatments: [] })).toEqual([
    'substrate.geojson',
    'depth.geojson or depth.tif',
  ]);
});
