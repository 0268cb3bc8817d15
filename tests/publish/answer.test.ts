/** The answer sentence, word for word; expected texts by hand from the figures in tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import { answerSentence } from '../../src/publish/answer.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

describe('the answer sentence', () => {
  it('tells mussels, interval, area, depths, and what was searched', () => {
    expect(answerSentence(handMadeResult())).toBe(
      'About 184,000 mussels (95 % interval 121,000 to 279,000) on the 14.8 ha of lake bed that the survey speaks for, ' +
        '0.5 to 6.1 m deep. Divers counted 12 on the 90 m² that they searched, at depths of 1.0 to 5.6 m.',
    );
  });

  it('speaks in acres and feet when asked', () => {
    // 148,000 m² / 4,046.856 = 36.57 acres; 0.54 and 6.08 m = 1.8 and 19.9 ft; 89.5 m² = 963 ft²; 1.04 and 5.58 m = 3.4 and 18.3 ft
    expect(answerSentence(handMadeResult(), 'imperial')).toBe(
      'About 184,000 mussels (95 % interval 121,000 to 279,000) on the 36.6 acres of lake bed that the survey speaks for, ' +
        '2 to 20 ft deep. Divers counted 12 on the 963 ft² that they searched, at depths of 3 to 18 ft.',
    );
  });

  it('gives an upper limit, not a zero, when nothing was found', () => {
    expect(answerSentence(nothingFound())).toBe(
      'No mussels were found on the 90 m² searched, at depths of 1.0 to 5.6 m. Finding none does not show that there are ' +
        'none: up to 5,000 clusters could have been missed on the 14.8 ha of lake bed that the survey speaks for, 0.5 to ' +
        '6.1 m deep (95 % upper limit if divers see every cluster in their path; more if they miss some).',
    );
  });

  it('has no limit for a lake without a map on which nothing was found', () => {
    const result = nothingFound();
    result.estimate.abundance = null;
    expect(answerSentence(result)).toBe(
      'No mussels were found on the 90 m² searched, at depths of 1.0 to 5.6 m. Finding none does not show that there are ' +
        'none; without a lake map there is no limit for the lake.',
    );
  });

  it('names the maps that are missing and gives the density along the transects', () => {
    expect(answerSentence(withoutLake())).toBe(
      'There is no lake-wide number: the folder holds no outline.geojson, no substrate.geojson and no depth.geojson or ' +
        'depth.tif. Along the transects there were about 0.46 clusters per m² (95 % interval 0.30 to 0.70), corrected ' +
        'for those that divers miss. Divers counted 12 on the 90 m² that they searched, at depths of 1.0 to 5.6 m.',
    );
  });

  it('says so when no mapped bed was inside', () => {
    const result = handMadeResult();
    result.estimate.abundance = null;
    expect(answerSentence(result)).toMatch(
      /^There is no lake-wide number: no mapped bed lies within the habitats and depths that were searched\./,
    );
  });

  it('counts detectable mussels only when nobody followed', () => {
    const result = handMadeResult();
    result.estimate.detection!.fixed = 'p=1';
    const sentence = answerSentence(result);
    expect(sentence).toContain('About 184,000 detectable mussels (');
    expect(sentence).toMatch(
      /Nobody searched after the first diver, so what he missed is not in this number\.$/,
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
    expect(answerSentence(result)).toMatch(
      /^About 180,000 mussels \(no interval could be given\) on the 14\.8 ha/,
    );
  });

  it('names the level of the interval', () => {
    const result = handMadeResult();
    result.analysis.interval = 0.8;
    expect(answerSentence(result)).toContain('(80 % interval 121,000 to 279,000)');
  });

  it('never says free, clean or absent', () => {
    for (const result of [handMadeResult(), nothingFound(), withoutLake()])
      expect(answerSentence(result)).not.toMatch(/\b(free|clean|absent|absence)\b/i);
  });
});
