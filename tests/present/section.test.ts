/** The cross-section. A rope of 5 m that goes down 3 m lies over 4 m of lake (3, 4, 5); all values by hand. */

import { describe, expect, it } from 'vitest';
import type { Detection, PlacedTransect, Role } from '../../shared/survey.ts';
import { type Section, sectionOf } from '../../src/present/section.ts';
import { exaggerationWords, sectionKey, sectionWords } from '../../src/present/section-words.ts';
import { handMadeResult } from '../helpers/result.ts';

const { placed, survey } = handMadeResult();
const [first] = placed;
const [detection] = survey.detections;
if (first === undefined || detection === undefined) throw new Error('the helper has both');

/** 5 m sloping down 3 m, then the same again */
const sloping: PlacedTransect = {
  ...first,
  horizontalLengthM: 8,
  profile: { distanceM: [0, 5, 10], depthM: [1, 4, 7], horizontalM: [0, 4, 8] },
};
const piece = (fromM: number, toM: number, substrate: string[], plantCover = 0) => ({
  transect: 'T1',
  fromM,
  toM,
  substrate,
  plantCover,
});
const detected = (distanceM: number, role: Role, transect = 'T1'): Detection => ({
  ...detection,
  transect,
  distanceM,
  role,
  count: 4,
});

function sloped(detections: Detection[]): Section {
  return sectionOf(
    sloping,
    [piece(0, 2.5, ['sand'], 2), piece(2.5, 5, ['sand']), piece(5, 10, ['rock', 'sand'])],
    detections,
  );
}
const section = sloped([
  detected(7.5, 'secondary'),
  detected(2.5, 'primary'),
  detected(1, 'primary', 'T2'),
]);

describe('a section', () => {
  it('joins pieces of one substrate and keeps the corners of the bed', () => {
    expect(section.stretches.map((s) => [s.label, s.fromM, s.toM])).toEqual([
      ['sand', 0, 5],
      ['rock+sand', 5, 10],
    ]);
    expect(section.stretches[0]?.points.map((p) => [p.horizontalM, p.depthM])).toEqual([
      [0, 1],
      [4, 4],
    ]);
  });

  it('puts clusters on the bed, along the transect, with the observer of their role', () => {
    expect(section.clusters.map((c) => [c.horizontalM, c.depthM, c.observer, c.detection])).toEqual(
      [
        [2, 2.5, 'Ada', 1],
        [6, 5.5, 'Ben', 0],
      ],
    );
  });

  it('grows plants about every metre where there are some', () => {
    // 2.5 m of cover 2: three marks, at sixths of the piece
    expect(section.plants.map((p) => p.score)).toEqual([2, 2, 2]);
    expect(section.plants[1]?.horizontalM).toBeCloseTo(1, 12);
  });

  it('knows its depths and has a mark each metre of rope', () => {
    expect([section.shallowestM, section.deepestM, section.lengthM]).toEqual([1, 7, 10]);
    expect(section.marks).toHaveLength(11);
    expect(section.marks[5]).toEqual({ horizontalM: 4, depthM: 4 });
  });
});

describe('in words', () => {
  it('says where it lies and what was detected', () => {
    expect(sectionWords(section).described).toBe(
      'Cross-section of T1: the bed at 1.0 m at its start and 7.0 m at its end, 10 m along the rope; sand from 0 m to 5 m and rock+sand from 5 m to 10 m. 2 clusters with 8 mussels were detected: 1 by Ada, primary observer, 1 by Ben, secondary observer; the largest has 4, at 2.5 m.',
    );
    expect(sectionWords(sloped([])).described).toMatch(/Nothing was detected along it\.$/);
  });

  it('has the bed and the clusters as tables', () => {
    const { bed, clusters } = sectionWords(section);
    expect(bed.rows.map((r) => r.cells)).toEqual([
      ['0 m', '5 m', 'sand', '1.0 m', '4.0 m'],
      ['5 m', '10 m', 'rock+sand', '4.0 m', '7.0 m'],
    ]);
    expect(clusters.rows.map((r) => r.cells)).toEqual([
      ['2.5 m', '–', '2.5 m', '4', 'Ada, primary'],
      ['7.5 m', '–', '5.5 m', '4', 'Ben, secondary'],
    ]);
    expect(clusters.columns.map((c) => c.title)).toContain('Perpendicular distance');
    // 2.5 m are 8.202 ft
    expect(sectionWords(section, 'imperial').clusters.rows[0]?.cells[0]).toBe('8.202 ft');
  });

  it('explains its marks', () => {
    const key = sectionKey(section, 3);
    expect(key.observers.map((o) => o.text)).toEqual([
      'Ada, primary observer',
      'Ben, secondary observer',
    ]);
    expect(key.sizes?.text).toBe('1 and 4 in a cluster');
    expect(key.scale).toBe('depth drawn 3 times as large as length; marks on the rope every 1 m');
    expect(sectionKey(sloped([]), 1)).toMatchObject({ observers: [], sizes: null });
  });

  it('says how depth is drawn', () => {
    expect(exaggerationWords(4)).toBe('depth drawn 4 times as large as length');
    expect(exaggerationWords(1)).toBe('depth and length drawn alike');
    expect(exaggerationWords(0.2)).toBe('length drawn 5 times as large as depth');
  });
});
