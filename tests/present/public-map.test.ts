/** What the public is told of a survey, by hand: the number, the depths beside it, the places; and what is kept from them. */

import { describe, expect, it } from 'vitest';
import type { PublicWishes } from '../../shared/public-map.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatter } from '../../shared/strings/formatter.ts';
import { PUBLIC } from '../../shared/strings/public/index.ts';
import { publicMap } from '../../src/present/public-map.ts';
import { placeWords, publicTexts, spotWords } from '../../src/present/public-words.ts';
import { publicLake } from '../helpers/public-lake.ts';
import { nothingFound } from '../helpers/result.ts';

const english = formatter('en-US', PUBLIC.en);
const NONE: PublicWishes = { title: null, contact: null, nextUpdate: null };

function mapOf(result: SurveyResult = publicLake(), coarseM: number | null = null) {
  const map = publicMap(result, coarseM);
  if (map === null) throw new Error('got no map, expected one');
  return map;
}

const textsOf = (result?: SurveyResult, coarseM?: number) =>
  publicTexts(mapOf(result, coarseM).facts, NONE, english);

describe('the number', () => {
  it('is a range with one digit of its standard error, its area and depths beside it', () => {
    const { lead, holds } = textsOf();
    // 184,321 (121,234 to 279,456), standard error 39,000: to 10,000
    expect(lead).toBe(
      'About 180,000 mussels; it could be 120,000 to 280,000, in the part of the lake that was surveyed.',
    );
    // 148,000 m² are 14.8 ha; / 4,046.856 = 36.57; 0.54 and 6.08 m are 1.8 and 19.9 ft
    expect(holds).toEqual([
      'This part is 14.8 hectares (36.6 acres) of lake bed, 0.5 to 6.1 m deep (2 to 20 ft).',
    ]);
  });

  it('says what lies outside of it, and what a range means', () => {
    const { notes } = textsOf();
    // 42,000 + 23,000 m²
    expect(notes).toContain(
      'Another 6.50 hectares (16.1 acres) of lake bed is not in this number. Mussels may live there too.',
    );
    expect(notes.join(' ')).toContain('about 95% of surveys');
  });

  it('is by depth in a table', () => {
    expect(textsOf().tables.byDepth?.rows).toEqual([
      ['0.5 to 1.0 m (2 to 3 ft)', '2.00 hectares (4.94 acres)', '61,000', '46,000 to 82,000'],
    ]);
  });

  it('is not there where nothing was detected: then how much could have been missed', () => {
    const nothing = { ...publicLake(), estimate: nothingFound().estimate };
    nothing.survey.detections = [];
    const { lead, holds, tables } = textsOf(nothing);
    expect(lead).toContain('That does not show that there are none');
    expect(holds.join(' ')).toContain('up to 5,000 clusters');
    expect(tables.byDepth).toBeNull();
  });

  it('is what was counted where there is no lake-wide number', () => {
    const result = publicLake();
    Object.assign(result.estimate, { abundance: null, margins: null });
    const { lead, holds } = textsOf(result);
    expect(lead).toContain('Divers counted 12 mussels');
    expect(holds).toEqual(['The divers were 1.0 to 5.6 m deep (3 to 18 ft).']);
  });

  it('is told as one of clusters, or without a range, where that is all there is', () => {
    const result = publicLake();
    if (result.estimate.abundance !== null) result.estimate.abundance.mussels = null;
    expect(textsOf(result).lead).toMatch(/^About 70,000 clusters of mussels; it could be/);
    const open = publicLake();
    Object.assign(open.estimate.abundance?.mussels ?? {}, { se: null, lower: null, upper: null });
    expect(textsOf(open).lead).toContain('How far off this number may be is not known');
  });
});

describe('places', () => {
  it('are the transects, with what was counted, days and depths, and no name', () => {
    const { facts } = mapOf();
    expect(facts.places.map(({ counted, days, depths }) => ({ counted, days, depths }))).toEqual([
      { counted: 7, days: ['2026-07-04'], depths: null },
      { counted: 5, days: ['2026-07-01'], depths: { fromM: 1.04, toM: 5.58 } },
    ]);
    expect(placeWords(facts, 1, english)).toEqual([
      'Divers searched here (July 1, 2026) and counted 5 mussels.',
      'The water is about 1.0 to 5.6 m deep (3 to 18 ft).',
    ]);
  });

  it('lie where the drawing shows them: x from the west shore, y down from the north shore', () => {
    const { facts, shapes } = mapOf();
    // margins of 4 % of 300 m: 324 m on 4,000 units; the middle of T1 lies 114.75 m east and 120 m south of the corner
    expect(shapes.frame).toMatchObject({ width: 4000, height: 2765 });
    const unit = 324 / 4000;
    expect(facts.places[1].at[0]).toBeCloseTo((114.75 + 12) / unit, 0);
    expect(facts.places[1].at[1]).toBeCloseTo((120 + 12) / unit, 0);
    // in the middle third from west to east and from north to south
    expect(facts.places.map((p) => p.part)).toEqual([4, 4]);
  });

  it('are squares where they are coarse: together, in whole metres of depth, with all of their days', () => {
    const { facts } = mapOf(publicLake(), 50);
    expect(facts.places).toHaveLength(1);
    expect(facts.places[0]).toMatchObject({
      line: null,
      counted: 12,
      days: ['2026-07-01', '2026-07-04'],
      depths: { fromM: 1, toM: 6 },
    });
    // the dash of a range stands between narrow spaces
    expect(placeWords(facts, 0, english)[0]?.replace(/\s/gu, ' ')).toContain(
      'in this square (July 1 – 4, 2026)',
    );
    expect(textsOf(publicLake(), 50).key.notes.join(' ')).toContain('squares of 50 m');
  });

  it('without a detection are told as searched; others as not searched, in the number or not', () => {
    const result = publicLake();
    result.survey.detections = result.survey.detections.filter((d) => d.transect === 'T1');
    const { facts } = mapOf(result);
    expect(placeWords(facts, 0, english)[0]).toBe(
      'Divers searched here (July 4, 2026) and detected no mussels. Some may have been missed.',
    );
    const spot = { inLake: true, inSurveyed: true, shade: 1 };
    expect(spotWords(facts, spot, english)[0]).toContain('part of the number');
    // depths to 5.5 m in steps of 1 m
    expect(spotWords(facts, spot, english)[1]).toContain('1 to 2 m deep (3 to 7 ft)');
    expect(spotWords(facts, { ...spot, inSurveyed: false, shade: null }, english)).toEqual([
      'Nobody searched here, and this place is not in the number. Mussels may live here too.',
    ]);
    expect(spotWords(facts, { ...spot, inLake: false }, english)).toHaveLength(1);
  });
});

describe('the drawing', () => {
  it('has shades at round depths, and the edge of the surveyed habitat', () => {
    const { shapes } = mapOf();
    expect(shapes.depths.map((d) => d.fromM)).toEqual([1, 2, 3, 4, 5]);
    expect(shapes.edge).toHaveLength(1);
  });

  it('leaves that edge out where it would run around transects whose places are coarse', () => {
    const result = publicLake();
    result.analysis.map.far_from_transects = 'exclude';
    expect(mapOf(result, 50).shapes.edge).toEqual([]);
    expect(mapOf(result).shapes.edge).toHaveLength(1);
  });

  it('is not there without an outline', () => {
    const result = publicLake();
    result.lake.outline = null;
    expect(publicMap(result, null)).toBeNull();
  });
});

it('contact and next update are told as given, a day as the reader writes it', () => {
  const { facts } = mapOf();
  const wishes = { title: 'Our lake', contact: 'Lake office', nextUpdate: '2027-09-30' };
  const { title, about } = publicTexts(facts, wishes, formatter('fr-CA', PUBLIC.fr));
  expect(title).toBe('Our lake');
  expect(about.facts.slice(1)).toEqual([
    ['À qui s’adresser', 'Lake office'],
    ['Prochaine mise à jour', '30 septembre 2027'],
  ]);
});
