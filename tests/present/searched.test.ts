/** What was searched; figures by hand from tests/helpers/result.ts. */

import { describe, expect, it } from 'vitest';
import { searched, searchedLines, searchedList } from '../../src/present/searched.ts';
import { handMadeResult } from '../helpers/result.ts';

const { survey, segments, domain } = handMadeResult();

describe('what was searched', () => {
  it('is counted and summed', () => {
    expect(searched(survey, segments)).toEqual({
      transects: 2,
      belts: 1,
      distances: 1,
      lengthM: 60,
      areaM2: 60,
      segments: 3,
      depths: { fromM: 1.04, toM: 5.58 },
      clusters: 3,
      mussels: 12,
      empty: 0,
      single: 0,
      thermocline: 0,
      days: ['2026-07-01', '2026-07-04'],
    });
  });

  it('counts transects without a detection, without a secondary observer, and ended at the thermocline', () => {
    const other = structuredClone(survey);
    other.detections = other.detections.filter((d) => d.transect === 'T1');
    other.transects[1].secondary = null;
    other.transects[0].stop = 'thermocline';
    expect(searched(other, [])).toMatchObject({ empty: 1, single: 1, thermocline: 1, areaM2: 0 });
    const list = searchedList(searched(other, segments), domain);
    expect(list[1]).toEqual(['Without a secondary observer', '1 of 2']);
    expect(list.at(-1)).toEqual(['Ended at the thermocline', '1 of 2']);
  });

  it('is a list of names and values', () => {
    expect(searchedList(searched(survey, segments), domain)).toEqual([
      ['Transects', '2 (1 belt, 1 distance)'],
      ['Days', '2026-07-01 to 2026-07-04'],
      ['Searched area', '60 m²'],
      ['Depths sampled', '1.0 to 5.6 m'],
      ['Segments', '3'],
      ['Detected clusters', '3'],
      ['Mussels counted', '12'],
      ['Substrates searched', 'sand, gravel, rock'],
    ]);
  });

  it('is three lines for a terminal', () => {
    expect(searchedLines(searched(survey, segments))).toEqual([
      '2 transects (1 belt, 1 distance) on 2 days, 2026-07-01 to 2026-07-04',
      '60 m² of searched area in 3 segments, 1.0 to 5.6 m deep',
      '12 mussels counted in 3 clusters',
    ]);
  });

  it('has a day, or none', () => {
    const one = { ...survey, transects: survey.transects.slice(0, 1) };
    expect(searchedLines(searched(one, segments))[0]).toBe(
      '1 transect (1 belt, 0 distance) on 2026-07-01',
    );
    const none = searched({ transects: [], habitat: [], detections: [] }, []);
    expect(searchedLines(none)).toEqual([
      '0 transects (0 belt, 0 distance)',
      '0 m² of searched area in 0 segments',
      '0 mussels counted in 0 clusters',
    ]);
    expect(searchedList(none, domain)).toContainEqual(['Depths sampled', 'none']);
  });
});
