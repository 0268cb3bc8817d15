/** A plan in words: figures by hand. */

import { describe, expect, it } from 'vitest';
import type { FewMore, PlanFile } from '../../shared/planning.ts';
import { readFewMore } from '../../src/present/few-more.ts';
import { cvText, hoursText, readPlan } from '../../src/present/plan.ts';
import { precisionPicture } from '../../src/present/precision-curve.ts';

const PLAN: PlanFile = {
  schema: 'shoalwise/plan/1',
  lake: 'Quillback Lake',
  request: {
    target: { kind: 'cv', cv: 0.15 },
    dive: { design: 'belt', observers: 2, lengthM: 30, widthM: 1, direction: 'down' },
    added: false,
    sections: 2,
    startDepthsM: [1.5],
    allocation: 'best',
    seed: 1,
  },
  current_cv: 0.21,
  expected_cv: 0.148,
  minutes: 830,
  reached: true,
  zones: [
    { section: 1, startDepthM: 1.5, lineM: 812, transects: 2, minutes: 27.4 },
    { section: 2, startDepthM: 1.5, lineM: 390, transects: 1, minutes: null },
  ],
  transects: [0, 0, 1].map((zone, i) => ({
    transect: `P0${i + 1}`,
    zone,
    start: [-93, 45],
    end: [-93, 45.0003],
    bearingDeg: 1,
    bearingRef: 'true',
    lengthM: 30,
    startDepthM: 1.5,
    endDepthM: 3,
    primary: 'Ann',
    secondary: 'Ben',
  })),
  // √ law: 10 give 0.3, 40 give 0.15, 160 give 0.075
  curve: [10, 40, 160].map((transects, i) => ({
    transects,
    minutes: transects * 28,
    cv: 0.3 / 2 ** i,
    lower: 0.28 / 2 ** i,
    upper: 0.34 / 2 ** i,
    not_estimable: i === 0 ? 0.2 : 0,
  })),
  alternatives: [
    { design: 'belt', observers: 1, width_m: 1, minutes_a_transect: 20, transects: 41, cv: null },
    { design: 'belt', observers: 2, width_m: 2, minutes_a_transect: 44, transects: 19, cv: 0.14 },
  ],
  check: {
    surveys: 100,
    expected_cv: 0.14,
    simulated_cv: 0.15,
    simulated_se: 0.0106,
    not_estimable: 0.03,
  },
  habitat_m2: 148_000,
  no_dive_m2: 2000,
  no_dive: [],
};

describe('a plan in words', () => {
  const read = readPlan(PLAN);

  it('says what it is expected to give, and what it costs', () => {
    expect(read.sentence.join('')).toBe(
      '3 transects are expected to give a CV of 15 %, some 13 h 50 min of diving.',
    );
    expect(read.lead.join(' ')).toContain('where nobody may dive is left out');
  });

  it('reads round numbers off the curve, straight on logarithmic axes', () => {
    // by hand: 0.2 lies at 10 · (0.3/0.2)² = 22.5, 0.1 at 90
    expect(read.curve[0]).toBe('A CV of 20 % takes 23, of 15 % takes 40, of 10 % takes 90.');
    expect(read.curve.join(' ')).toContain('20 % of those with 10');
  });

  it('names the dives of a stretch, and the ways in the order of their precision', () => {
    expect(read.zones.rows.map((r) => r[1])).toEqual(['P01 to P02', 'P03']);
    expect(read.alternatives.rows.map((r) => r.at(-1))).toEqual(['14 %', 'no CV']);
    expect(read.alternatives.notes.join(' ')).toContain('one observer alone cannot tell');
  });

  it('says where a stretch has many more than its length would give, and what sharing by length comes to', () => {
    expect(read.zones.notes).toEqual([]);
    const zones = PLAN.zones.map((z, i) => ({ ...z, transects: [13, 2][i] }));
    const uneven = readPlan({ ...PLAN, zones, by_length: { transects: [10, 5], cv: 0.163 } });
    expect(uneven.zones.notes.join(' ')).toContain(
      'stretch 1 has 13, by its length 10. Shared by length the 15 are expected to give 16 %.',
    );
    expect(
      readPlan({ ...PLAN, zones, by_length: { transects: [12, 3], cv: 0.163 } }).zones.notes,
    ).toEqual([]);
  });

  it('holds the check against what was expected', () => {
    expect(read.check).toContain('expected CV 14 %, simulated 15 % ± 1.1 %');
    expect(read.check).toContain('3 % of them gave no number');
  });

  it('says so where the goal is not reached, or nothing can be told', () => {
    expect(readPlan({ ...PLAN, reached: false }).sentence.join('')).toContain(
      'short of the CV of 15 % that was asked for',
    );
    expect(readPlan({ ...PLAN, expected_cv: null }).sentence.join('')).toContain('not tell');
  });

  it('rounds to what means something', () => {
    expect([0.0432, 0.0996, 0.153, null].map(cvText)).toEqual(['4.3 %', '10 %', '15 %', 'no CV']);
    expect([8, 58, 120, 831].map(hoursText)).toEqual(['8 min', '1 h', '2 h', '13 h 50 min']);
  });

  it('has no picture where no design tells the total', () => {
    const none = PLAN.curve.map((p) => ({ ...p, cv: null, lower: null, upper: null }));
    expect(precisionPicture({ ...PLAN, curve: none })).toBeNull();
    expect(precisionPicture(PLAN)?.cv).toMatchObject({ from: 0.07, to: 0.5 });
  });
});

describe('a few more dives', () => {
  const few: FewMore = {
    design: 'belt',
    observers: 2,
    current_cv: 0.18,
    goal: 0.15,
    more: [{ transects: 1, cv: 0.172 }],
    enough: 4,
  };
  it.each([
    [{}, 'The CV is 18 % now; four more belt transects are expected to bring it to 15 %.'],
    [{ enough: 1 }, 'The CV is 18 % now; one more belt transect is expected to bring it to 15 %.'],
    [{ enough: 0 }, 'The CV is 18 % now: 15 % is reached.'],
    [{ enough: null }, 'The CV is 18 % now; 200 more would not bring it to 15 %.'],
    [{ goal: null }, 'The CV is 18 % now.'],
  ])('%j', (changed, sentence) => {
    expect(readFewMore({ ...few, ...changed }).sentence).toBe(sentence);
  });
});
