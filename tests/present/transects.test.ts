/** The transects in words and rows. Figures are those of tests/helpers/result.ts, by hand. */

import { describe, expect, it } from 'vitest';
import {
  transectHead,
  transectsOpening,
  transectTable,
  unplacedSentence,
} from '../../src/present/transects.ts';
import { handMadeResult, nothingFound } from '../helpers/result.ts';

describe('the opening', () => {
  it('adds up the survey', () => {
    const { survey, segments } = handMadeResult();
    // areas are 15, 15 and 30 m², depths 1.04 to 5.58 m, counts 4, 1 and 7
    expect(transectsOpening(survey, segments)).toEqual({
      sentence: '2 transects from 1.0 to 5.6 m deep, and 3 clusters detected on them.',
      lead: '60 m in length together, a searched area of 60 m². The clusters held 12 mussels.',
    });
    // 60 m are 196.9 ft, 60 m² 645.8 ft²
    expect(transectsOpening(survey, segments, 'imperial').lead).toMatch(
      /^197 ft in length together, a searched area of 646 ft²/,
    );
  });

  it('says on how many nothing was detected, or that nothing was at all', () => {
    const some = handMadeResult();
    some.survey.detections = some.survey.detections.filter((d) => d.transect === 'T1');
    expect(transectsOpening(some.survey, some.segments).lead).toContain(
      'held 5 mussels; on 1 transect nothing was detected.',
    );
    const none = nothingFound();
    expect(transectsOpening(none.survey, none.segments)).toEqual({
      sentence: '2 transects from 1.0 to 5.6 m deep, searched, nothing detected.',
      lead: '60 m in length together, a searched area of 60 m².',
    });
  });
});

it('counts those that could not be placed', () => {
  expect(unplacedSentence(4, 4)).toBeNull();
  expect(unplacedSentence(4, 3)).toBe(
    'One transect could not be placed and is not drawn; the errors are listed at the Survey station.',
  );
  expect(unplacedSentence(4, 2)).toMatch(/^2 transects could not be placed and are not drawn/);
});

describe('the table', () => {
  it('has a row a transect', () => {
    const { placed, segments, survey } = handMadeResult();
    const table = transectTable(placed, segments, survey);
    expect(table.rows[0]).toEqual({
      transect: 'T1',
      name: 'T1',
      observers: 'Ada, Ben',
      depths: '1.0 to 5.6 m',
      area: '30 m²',
      clusters: '2',
      mussels: '5',
      flagged: false,
    });
    expect(table.note).toBeNull();
  });

  it('flags positions in doubt and says what that means', () => {
    const { placed, segments, survey } = handMadeResult();
    const doubt = placed.map((p) => ({
      ...p,
      residuals: p.residuals.map((r) => ({ ...r, flagged: true })),
    }));
    expect(transectTable(doubt.slice(0, 1), segments, survey).note).toMatch(
      /^Waypoints, bearing and length of one transect disagree/,
    );
    expect(transectTable(doubt, segments, survey).note).toContain('of 2 transects disagree');
  });
});

it('heads a transect with day, design and observers', () => {
  const heads = handMadeResult().placed.map((p) => transectHead(p));
  expect(heads).toEqual([
    '2026-07-01 · belt, 1 m wide · Ada, then Ben',
    '2026-07-04 · distance, 2 m wide · Ada, then Ben',
  ]);
});
