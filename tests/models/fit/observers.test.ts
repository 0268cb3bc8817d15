/**
 * Which observers can be told apart, rule by rule: groups read off the sheets, and groups joined by the information that a
 * fit leaves, with information matrices written by hand.
 */

import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../../models/data.ts';
import { firstGroups } from '../../../models/detection/divers.ts';
import { joinDivers } from '../../../models/detection/sharing.ts';
import { compileLikelihood } from '../../../models/likelihood.ts';
import type { DiverGroup } from '../../../models/parts.ts';
import { CERTAIN, columnTerms, densityOf } from '../../helpers/count-model.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

const pass = (
  primary: number,
  secondary: number | null,
  first: number,
  second = 0,
  design: 'belt' | 'distance' = 'belt',
): WrittenTransect => ({ design, primary, secondary, segments: [{ first, second }] });

describe('groups that need no fit', () => {
  const groupsOf = (transects: WrittenTransect[], byObserver = true, observers = 2) =>
    firstGroups(writtenRows(transects, observers), byObserver);
  const shown = (groups: DiverGroup[]) =>
    groups.map((g) => `${g.term}${g.certain ? ' p = 1' : ''}`);

  it('roles exchanged: an observer each', () => {
    const { groups, notices } = groupsOf([pass(0, 1, 20, 5), pass(1, 0, 15, 4)]);
    expect(shown(groups)).toEqual(['observer:Ada:belt', 'observer:Ben:belt']);
    expect(notices).toEqual([]);
  });

  it('one p for all where nobody asks for each, or roles were never exchanged', () => {
    expect(shown(groupsOf([pass(0, 1, 20, 5), pass(1, 0, 15, 4)], false).groups)).toEqual([
      'intercept:belt',
    ]);
    expect(shown(groupsOf([pass(0, 1, 20, 5), pass(0, 1, 15, 4)]).groups)).toEqual([
      'intercept:belt',
    ]);
    // a single pass is no role in a pair
    expect(shown(groupsOf([pass(0, 1, 20, 5), pass(1, null, 15)]).groups)).toEqual([
      'intercept:belt',
    ]);
  });

  it('roles are judged within a design', () => {
    const { groups } = groupsOf([
      pass(0, 1, 20, 5),
      pass(1, 0, 15, 4),
      pass(0, 1, 9, 2, 'distance'),
    ]);
    expect(shown(groups)).toEqual(['observer:Ada:belt', 'observer:Ben:belt', 'intercept:distance']);
  });

  it('an observer after whom nobody detected anything has p = 1, with a notice; others keep their own', () => {
    const { groups, notices } = groupsOf([pass(0, 1, 20, 0), pass(1, 0, 15, 4)]);
    expect(shown(groups)).toEqual(['observer:Ada:belt p = 1', 'observer:Ben:belt']);
    expect(notices).toEqual([{ code: 'nothing-missed', design: 'belt', observers: ['Ada'] }]);
  });

  it('but not an observer who detected nothing as primary', () => {
    const { groups } = groupsOf([pass(0, 1, 0, 0), pass(1, 0, 15, 4)]);
    expect(shown(groups)).toEqual(['observer:Ada:belt', 'observer:Ben:belt']);
  });

  it('no secondary anywhere: p = 1 by assumption, without that notice', () => {
    const { groups, notices } = groupsOf([pass(0, null, 20), pass(1, null, 15)]);
    expect(shown(groups)).toEqual(['intercept:belt p = 1']);
    expect(notices).toEqual([]);
  });

  it('primaries that detected nothing, and a design without a detection, are refused by cause', () => {
    const reason = (cause: string, design: string) =>
      expect.objectContaining({ reason: expect.objectContaining({ cause, design }) });
    expect(() => groupsOf([pass(0, 1, 0, 5), pass(1, 0, 0, 4)])).toThrow(
      reason('nothing-detected-first', 'belt'),
    );
    expect(() => groupsOf([pass(0, 1, 9, 2), pass(1, 0, 0, 0, 'distance')])).toThrow(
      reason('nothing-detected', 'distance'),
    );
    // belts of single passes need no detection to have p = 1
    expect(shown(groupsOf([pass(0, null, 0), pass(0, 1, 4, 1, 'distance')]).groups)).toEqual([
      'intercept:belt p = 1',
      'intercept:distance',
    ]);
  });
});

describe('groups joined by the information of a fit', () => {
  /** Three observers who exchange roles all round; parameters are the intercept of the density and a logit each. */
  const rows: SurveyRows = writtenRows(
    [pass(0, 1, 9, 3), pass(1, 2, 8, 3), pass(2, 0, 7, 2), pass(1, 0, 6, 2)],
    3,
  );
  const groups: DiverGroup[] = [0, 1, 2].map((o) => ({
    design: 'belt',
    observers: [o],
    certain: false,
    term: `observer:${['Ada', 'Ben', 'Cy'][o]}:belt`,
  }));
  const { layout } = compileLikelihood(rows, {
    ...CERTAIN,
    family: 'poisson',
    transectEffect: false,
    density: densityOf(columnTerms(rows, {})),
    divers: groups,
  });
  const known = (): number => 1;

  /** Symmetric, unit diagonal: intercept, Ada, Ben, Cy. */
  function information(pairs: Record<string, number>): Float64Array {
    const h = new Float64Array(16);
    for (let i = 0; i < 4; i++) h[i * 5] = 1;
    for (const [pair, value] of Object.entries(pairs)) {
      const [i, j] = [...pair].map(Number);
      if (i === undefined || j === undefined) throw new Error(`no pair ${pair}`);
      h[i * 4 + j] = h[j * 4 + i] = value;
    }
    return h;
  }
  const join = (pairs: Record<string, number>, se: (group: number) => number | null = known) =>
    joinDivers(rows, groups, layout, information(pairs), se);
  const joinedNames = (...asked: Parameters<typeof join>) =>
    join(...asked)?.groups.map((g) => g.term) ?? null;

  it('with information on each, nobody is joined', () => {
    expect(layout.divers).toEqual([1, 2, 3]);
    expect(join({})).toBeNull();
    // by hand: the least eigenvalue of a pair with correlation ρ is 1 − ρ
    expect(join({ '12': 1 - 1.1e-4 })).toBeNull();
  });

  it('two whose contrast holds less than 1e-4 share one p, the third keeps their own', () => {
    const joined = join({ '12': 1 - 0.9e-4 });
    expect(joined?.groups.map((g) => [g.term, g.observers])).toEqual([
      ['observer:Ada=Ben:belt', [0, 1]],
      ['observer:Cy:belt', [2]],
    ]);
    expect(joined?.notice).toEqual({
      code: 'divers-joined',
      design: 'belt',
      observers: ['Ada', 'Ben'],
    });
    expect(joinedNames({ '23': 0.99999 })).toEqual(['observer:Ada:belt', 'observer:Ben=Cy:belt']);
  });

  it('information that the density takes counts as gone: S = 1 − H_αo²', () => {
    // Cy alone: 1 − 0.99996² = 8e-5 is left of one contrast that nobody else loads on, so all are joined
    expect(joinedNames({ '03': 0.99996 })).toEqual(['intercept:belt']);
    expect(join({ '03': 0.9999 })).toBeNull(); // 2e-4 is left
  });

  it('Ada and Ben both tied to the density: their sum is gone, and they share one p', () => {
    // H_αo = h for both: S = I − h² 11ᵀ has least eigenvalue 1 − 2h² on (1, 1)/√2
    const h = Math.sqrt((1 - 0.5e-4) / 2);
    expect(joinedNames({ '01': h, '02': h })).toEqual([
      'observer:Ada=Ben:belt',
      'observer:Cy:belt',
    ]);
  });

  it('a logit with a standard error above 5, or none, joins as well', () => {
    expect(join({}, () => 4.9)).toBeNull();
    expect(join({ '12': 0.5 }, (g) => (g === 0 ? 5.1 : 1))).not.toBeNull();
    expect(join({ '12': 0.5 }, (g) => (g === 1 ? null : 1))).not.toBeNull();
  });

  it('one group alone has nobody to be joined with', () => {
    const all: DiverGroup[] = [
      { design: 'belt', observers: [0, 1, 2], certain: false, term: 'intercept:belt' },
    ];
    const alone = compileLikelihood(rows, {
      ...CERTAIN,
      family: 'poisson',
      transectEffect: false,
      density: densityOf(columnTerms(rows, {})),
      divers: all,
    });
    expect(joinDivers(rows, all, alone.layout, new Float64Array(4), () => null)).toBeNull();
  });
});
