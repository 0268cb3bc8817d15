/**
 * Observers who must not be joined: a p at 0 or 1 leaves no curvature, but the likelihood-ratio test knows that they differ; and
 * who shares a p is the same in all models of a survey. Answers in closed form by hand.
 */

import { describe, expect, it } from 'vitest';
import { chooseModel } from '../../../models/fit/choice.ts';
import type { Fit } from '../../../models/fit/fitted-model.ts';
import { diverReports, pairReports } from '../../../models/report.ts';
import { BARE, fitConverged, NB1, POISSON, swapped } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../../helpers/written-rows.ts';

const bySubstrate = choices({ density: { plant_cover: 'none', depth: 'none' } });

describe('an observer who detected nothing where others did', () => {
  const rows = writtenRows(
    [
      ...swapped(30, 5, 20, 9),
      { primary: 2, secondary: 0, segments: [{ second: 23 }] },
      { primary: 0, secondary: 2, segments: [{ first: 24 }] },
    ],
    3,
  );
  const fit = fitConverged(rows, BARE, POISSON);
  const [ada, ben, cy] = diverReports(rows, fit, 0.95);

  it('has p = 0 on its boundary, and shares no p with the others', () => {
    expect(fit.notices.map((n) => n.code)).not.toContain('divers-joined');
    expect(fit.boundaries).toContainEqual({
      parameter: 'p',
      limit: 0,
      observers: ['Cy'],
      design: 'belt',
    });
    expect(cy).toMatchObject({ p: 0, se: null, lower: 0 });
  });

  it('leaves the fit that there would be without them: their passes are none', () => {
    const without = writtenRows([
      ...swapped(30, 5, 20, 9),
      { primary: 0, secondary: null, segments: [{ first: 23 }] },
      { primary: 0, secondary: null, segments: [{ first: 24 }] },
    ]);
    const single = fitConverged(without, BARE, POISSON);
    expect(fit.logLikelihood).toBeCloseTo(single.logLikelihood, 8);
    const same = diverReports(without, single, 0.95);
    expect(ada?.p).toBeCloseTo(same[0]?.p ?? 0, 7);
    expect(ben?.p).toBeCloseTo(same[1]?.p ?? 0, 7);
    const pairs = pairReports(rows, fit, 0.95);
    expect(pairs.find((p) => p.primary === 2)?.p).toBeCloseTo(same[0]?.p ?? 0, 7);
  });

  it('has the upper limit at which so many misses in a row have a probability of 5 %', () => {
    // behind Cy only Ada searched, who missed nothing; on a substrate of their own density says nothing of p:
    // (1 − p)²⁰ = 0.05
    const sure = writtenRows(
      [
        ...swapped(30, 0, 20, 6),
        { primary: 2, secondary: 0, segments: [{ second: 20, classes: [1] }] },
        { primary: 0, secondary: 2, segments: [{ first: 17, classes: [1] }] },
      ],
      3,
    );
    const report = diverReports(sure, fitConverged(sure, bySubstrate, POISSON), 0.95);
    expect(report[2]?.upper).toBeCloseTo(1 - 0.05 ** (1 / 20), 5);
  });

  it('but shares it where so few were there to be detected that this may be chance', () => {
    const few = writtenRows(
      [
        ...swapped(8, 3, 6, 4),
        { primary: 2, secondary: 0, segments: [{ second: 1, classes: [1] }] },
      ],
      3,
    );
    expect(fitConverged(few, bySubstrate, POISSON).notices.map((n) => n.code)).toContain(
      'divers-joined',
    );
  });
});

describe('a p of 1 on distance transects, with a covariate', () => {
  // the middles of eleven equal shares of a half-normal, and distances at which that has fallen
  const NEAR = [0.03, 0.1, 0.17, 0.24, 0.31, 0.38, 0.46, 0.54, 0.63, 0.74, 0.88];
  const FAR = [0.6, 0.75, 0.85, 0.95];
  const dive = (
    primary: number,
    first: number,
    second: number,
    plantCover: number,
  ): WrittenTransect => ({
    design: 'distance',
    primary,
    secondary: 1 - primary,
    segments: [
      {
        first,
        second,
        plantCover,
        offsetsM: [
          ...Array.from({ length: first }, (_, k) => NEAR[k % NEAR.length]),
          ...Array.from({ length: second }, (_, k) =>
            primary === 0 ? FAR[k % FAR.length] : NEAR[(3 * k) % NEAR.length],
          ),
        ],
      },
    ],
  });
  const rows = writtenRows([
    dive(0, 33, 4, 0),
    dive(0, 22, 3, 2),
    dive(0, 22, 3, 1),
    dive(1, 13, 22, 0),
    dive(1, 9, 17, 2),
    dive(1, 11, 20, 1),
  ]);
  const analysis = choices({
    density: { substrate: false, plant_cover: 'none', depth: 'none' },
    detection: { plant_cover: true, independence: 'full' },
  });
  const candidate = { ...POISSON, shape: 'half-normal' as const };

  it('is held on its boundary instead of shared with an observer who missed two of three', () => {
    const fit = fitConverged(rows, analysis, candidate);
    expect(fit.boundaries).toContainEqual({
      parameter: 'p',
      limit: 1,
      observers: ['Ada'],
      design: 'distance',
    });
    const shared = fitConverged(rows, analysis, {
      ...candidate,
      sharing: [{ design: 'distance', observers: [0, 1] }],
    });
    // χ² with one degree of freedom: 3.84 at 5 %
    expect(2 * (fit.logLikelihood - shared.logLikelihood)).toBeGreaterThan(3.84);
  });
});

describe('who shares a p, once settled', () => {
  it('is held in a model that would tell them apart, with a notice', () => {
    const rows = writtenRows(swapped(60, 8, 55, 10));
    const fit = fitConverged(rows, BARE, {
      ...POISSON,
      sharing: [{ design: 'belt', observers: [0, 1] }],
    });
    // one p for both: 115 first, 18 after; 1 − 18/115 (Seber & Le Cren 1967)
    expect(diverReports(rows, fit, 0.95).map((d) => d.p)).toEqual([
      expect.closeTo(1 - 18 / 115, 6),
      expect.closeTo(1 - 18 / 115, 6),
    ]);
    expect(fit.notices).toContainEqual({
      code: 'divers-joined',
      design: 'belt',
      observers: ['Ada', 'Ben'],
    });
  });

  it('is the same in all models, though a Poisson model by itself would tell Cy apart and the others cannot', () => {
    const rows = writtenRows(
      [
        ...swapped(20, 6, 18, 7),
        { primary: 2, secondary: null, segments: [{ first: 60 }] },
        { primary: 0, secondary: 1, segments: [{ first: 22, second: 5 }] },
        { primary: 1, secondary: 0, segments: [{ first: 6, second: 3 }] },
      ],
      3,
    );
    const groupsOf = (fit: Fit) => fit.parts.divers.map((g) => g.observers);
    const own = [POISSON, NB1].map((candidate) => groupsOf(fitConverged(rows, BARE, candidate)));
    expect(own).toEqual([[[0], [1], [2]], [[0, 1, 2]]]);
    const { fits } = chooseModel(rows, BARE);
    expect(fits.length).toBeGreaterThan(1);
    for (const fit of fits) expect(groupsOf(fit)).toEqual(groupsOf(fits[0]));
  });
});
