/** The verdicts on surveys drawn from the right model (they hold) and from wrong ones (the check that should speak does). */
import { describe, expect, it } from 'vitest';
import type { SurveyRows } from '../../../models/data.ts';
import { diagnose } from '../../../models/diagnose/index.ts';
import { roleTest } from '../../../models/diagnose/roles.ts';
import type { Candidate, Fit } from '../../../models/fit/fitted-model.ts';
import type { TestedVerdict } from '../../../shared/result.ts';
import { fitConverged } from '../../helpers/fitting.ts';
import { choices } from '../../helpers/made-up-rows.ts';
import { found, searched, truthWith, USUAL_TRUTH } from '../../helpers/simulated-survey.ts';

/** Simulated from each wrong truth. */
const SURVEYS = 10;

const ANALYSIS = choices({
  density: { plant_cover: 'none', depth: 'none' },
  detection: { independence: 'full' },
});
const POISSON: Candidate = { family: 'poisson', transectEffect: false, shape: null };

const alongTheShore = (rows: SurveyRows) =>
  Array.from({ length: rows.transectCount }, (_, k): [number, number] => [50 * k, 0]);

/** Verdicts by check over surveys; a survey that the model refuses counts in `refused`. */
function verdicts(count: number, make: (i: number) => SurveyRows, candidate: Candidate) {
  const tally = new Map<string, Record<TestedVerdict, number>>();
  let refused = 0;
  for (let i = 0; i < count; i++) {
    const rows = make(i);
    let fit: Fit;
    try {
      fit = fitConverged(rows, ANALYSIS, candidate);
    } catch {
      refused++;
      continue;
    }
    for (const { name, verdict } of diagnose(
      rows,
      fit,
      { positions: alongTheShore(rows), rings: null },
      null,
      i,
    ).checks) {
      if (verdict === 'saturated') continue;
      const own = tally.get(name) ?? { holds: 0, doubtful: 0, fails: 0 };
      own[verdict]++;
      tally.set(name, own);
    }
  }
  return { tally, refused };
}

/** Checks of every survey simulated here. */
const ALWAYS = [
  'observer',
  'transect',
  'overdispersion',
  'residuals',
  'spatial-autocorrelation',
  'design-based',
];

describe('the right model holds', () => {
  it.each<[string, string[], () => ReturnType<typeof verdicts>]>([
    [
      'belts, clumped, nb1',
      ['depth', ...ALWAYS],
      () =>
        verdicts(
          40,
          (i) => {
            const truth = truthWith({ density: { family: 'nb1', dispersion: 2 } });
            return found(searched(), truth, 42, i);
          },
          { ...POISSON, family: 'nb1' },
        ),
    ],
    [
      'distance, half-normal, transects that differ',
      ['perpendicular-distance', ...ALWAYS],
      () =>
        verdicts(
          40,
          (i) => {
            const truth = truthWith({ density: { transect_sd: 0.5 } });
            return found(searched({ design: 'distance' }), truth, 43, i);
          },
          { family: 'poisson', transectEffect: true, shape: 'half-normal' },
        ),
    ],
  ])('%s', (_name, names, run) => {
    const { tally, refused } = run();
    expect(refused).toBe(0);
    for (const name of names) {
      const { holds, doubtful, fails } = tally.get(name) as Record<TestedVerdict, number>;
      const n = holds + doubtful + fails;
      // at p < 0.05 and p < 0.005 if the test is exact: binomial means n/20 and n/200. Above mean + 4 standard
      // deviations once in 10,000 such tests
      expect(doubtful + fails, name).toBeLessThanOrEqual(n / 20 + 4 * Math.sqrt(n * 0.0475));
      expect(fails, name).toBeLessThanOrEqual(2);
      expect(n).toBeGreaterThanOrEqual(40);
    }
  });
});

describe('a wrong model is told', () => {
  it('clumped counts fitted as Poisson: overdispersion fails', () => {
    const truth = truthWith({ density: { family: 'nb1', dispersion: 3 } });
    const { tally } = verdicts(SURVEYS, (i) => found(searched(), truth, 45, i), POISSON);
    // by hand: dispersion 1 + 3 × 0.92 = 3.8, standard deviation about 0.5 over 180 segments; 2 is 3.6 of them away
    expect(tally.get('overdispersion')).toEqual({ holds: 0, doubtful: 0, fails: SURVEYS });
  });

  const exchanged = (rows: SurveyRows, on: (transect: number) => boolean): SurveyRows => ({
    ...rows,
    clusters: rows.clusters.map((c) =>
      on(rows.segments[c.segment].transect)
        ? { ...c, role: c.role === 'primary' ? 'secondary' : 'primary' }
        : c,
    ),
  });

  it.each([
    ['half', (t: number) => t % 4 < 2],
    ['a quarter', (t: number) => t % 8 < 2],
  ])(
    'roles exchanged on %s of the sheets: refused, or goodness of fit by transect fails',
    (_share, on) => {
      const { tally, refused } = verdicts(
        SURVEYS,
        (i) => exchanged(found(searched(), USUAL_TRUTH, 46, i), on),
        POISSON,
      );
      // by hand: the secondary observer has 0.12/0.92 or 0.32/0.92 of the detections on right sheets, the rest on exchanged
      // ones; some 27 detections a transect then lie 4 and more standard deviations off on every transect
      expect(refused + (tally.get('transect')?.fails ?? 0)).toBe(SURVEYS);
      // no other check shows it: over all transects together it looks like observers who miss a lot
      expect(tally.get('observer')?.fails).toBe(0);
    },
  );

  it('names the transect whose roles were exchanged', () => {
    let named = 0;
    for (let i = 0; i < SURVEYS; i++) {
      const rows = exchanged(found(searched({ areaM2: 10 }), USUAL_TRUTH, 48, i), (t) => t === 17);
      const test = roleTest(rows, fitConverged(rows, ANALYSIS, POISSON));
      if (test?.oddest.transect === 17) named++;
    }
    // about 50 detections, 6 expected of the secondary observer (Ben after Ada) or 17, all the rest theirs on the sheet: > 6 sd off
    expect(named).toBeGreaterThanOrEqual(SURVEYS - 1);
  });

  it('distances heaped at 0, 0.5 and 1 m: goodness of fit by distance fails', () => {
    const { tally } = verdicts(
      SURVEYS,
      (i) => {
        const rows = found(searched({ design: 'distance' }), USUAL_TRUTH, 47, i);
        return {
          ...rows,
          clusters: rows.clusters.map((c) => ({
            ...c,
            offsetM: Math.round(2 * (c.offsetM as number)) / 2,
          })),
        };
      },
      { ...POISSON, shape: 'half-normal' },
    );
    // by hand: two of the five classes are empty where some 100 clusters are expected
    expect(tally.get('perpendicular-distance')).toEqual({ holds: 0, doubtful: 0, fails: SURVEYS });
  });

  it('distances all written a fifth short: goodness of fit by distance speaks', () => {
    const { tally } = verdicts(
      SURVEYS,
      (i) => {
        const rows = found(searched({ design: 'distance' }), USUAL_TRUTH, 52, i);
        const clusters = rows.clusters.map((c) => ({ ...c, offsetM: 0.8 * (c.offsetM as number) }));
        return { ...rows, clusters };
      },
      { ...POISSON, shape: 'half-normal' },
    );
    // by hand: some 900 distances, none of them in the last of five classes, where a half-normal expects tens
    expect(tally.get('perpendicular-distance')?.holds).toBe(0);
  });

  it('large clusters detected more, size left out of the detection: cluster size by role speaks, and not else', () => {
    const sized = (log_count: number) =>
      verdicts(
        SURVEYS,
        (i) => {
          const truth = truthWith({
            detection: { log_count },
            cluster_size: { extra_mean: 1.5, k: 1, substrate: {} },
          });
          return found(searched(), truth, 54, i);
        },
        POISSON,
      ).tally.get('cluster-size') as Record<TestedVerdict, number>;
    // by hand: a slope of 1 makes the odds of being left over 5 times less for 5 mussels than for one; some 500 detections
    expect(sized(1).fails).toBeGreaterThanOrEqual(SURVEYS - 1);
    // at p < 0.05: more than 3 of 10 once in 1,000 such tests
    expect(sized(0).holds).toBeGreaterThanOrEqual(SURVEYS - 3);
  });

  it('neighbours that err alike: Moran fails', () => {
    const { tally } = verdicts(
      SURVEYS,
      (i) => {
        // density falls along the shore from 1.5 to 0.24 per m², which the model does not know
        const rows = searched();
        const along = rows.segments.map((s) => ({ ...s, clarityM: s.transect }));
        const drawn = found(rows, USUAL_TRUTH, 49, i);
        const kept = drawn.clusters.filter(
          (c, k) => (k * 0.6180339887) % 1 < 1 - 0.8 * (along[c.segment].transect / 29),
        );
        return { ...drawn, clusters: kept };
      },
      POISSON,
    );
    const moran = tally.get('spatial-autocorrelation') as Record<TestedVerdict, number>;
    expect(moran.fails).toBeGreaterThanOrEqual(SURVEYS - 3);
    expect(moran.holds).toBeLessThanOrEqual(1);
  });
});

it('a Poisson model with an effect of every substrate reproduces their counts: nothing is tested', () => {
  const rows = found(searched(), USUAL_TRUTH, 53);
  const fit = fitConverged(rows, ANALYSIS, POISSON);
  const { checks } = diagnose(rows, fit, { positions: alongTheShore(rows), rings: null }, null, 1);
  expect(checks.find((c) => c.name === 'substrate')).toEqual({
    name: 'substrate',
    verdict: 'saturated',
    chi2: null,
    df: null,
    p: null,
  });
});
