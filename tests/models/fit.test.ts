/**
 * The edges of the fit: boundaries, divers who cannot be told apart, separation, too little data. Answers in closed
 * form by hand. Tolerance 1e-6 where nothing is said: the fit ends at |gradient| × se ≤ 1e-6, counts are below 100.
 */
import { describe, expect, it } from 'vitest';
import { chooseModel } from '../../models/choose.ts';
import { NotIdentified } from '../../models/data.ts';
import { type Candidate, type Fit, fitModel } from '../../models/fit.ts';
import { classLimits } from '../../models/limits.ts';
import { diverReports, meanClusterSize, pairReports } from '../../models/report.ts';
import { choices } from '../helpers/made-up-rows.ts';
import { type WrittenTransect, writtenRows } from '../helpers/written-rows.ts';

const POISSON: Candidate = { family: 'poisson', transectEffect: false, shape: null };
const NB1: Candidate = { ...POISSON, family: 'nb1' };
const NB2: Candidate = { ...POISSON, family: 'nb2' };
const BARE = choices({ density: { substrate: false, plant_cover: 'none', depth: 'none' } });
/** −log(1 − 0.95) */
const DROP = 2.995732273553991;

const coefficient = (fit: Fit, term: string): number => {
  const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
  if (i < 0) throw new Error(`no ${term} in the fit`);
  return fit.theta[i];
};
const seOf = (fit: Fit, term: string): number => {
  const i = fit.likelihood.layout.parameters.findIndex((p) => p.term === term);
  return Math.sqrt(fit.covariance[i * fit.theta.length + i]);
};
const termsOf = (fit: Fit): string[] => fit.likelihood.layout.parameters.map((p) => p.term);
const told = (fit: Fit): string => fit.notices.map((n) => n.message).join('\n');
/** Root of a falling or rising function between two points, by halving. */
function root(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  const sign = Math.sign(f(a));
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (Math.sign(f(middle)) === sign) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
/** Greatest value of a function with one top, by golden sections. */
function greatest(f: (x: number) => number, from: number, to: number): number {
  const g = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  for (let i = 0; i < 200; i++) {
    const [c, d] = [b - g * (b - a), a + g * (b - a)];
    if (f(c) > f(d)) b = d;
    else a = c;
  }
  return f((a + b) / 2);
}

/** Two transects with the roles swapped: Ada first, then Ben first. */
const swapped = (aa: number, ab: number, bb: number, ba: number): WrittenTransect[] => [
  { primary: 0, secondary: 1, segments: [{ first: aa, second: ab }] },
  { primary: 1, secondary: 0, segments: [{ first: bb, second: ba }] },
];

describe('detection on its boundary', () => {
  it('nobody found anything after the first diver: p = 1, with the lower limit where the profile has dropped by 3.00', () => {
    const rows = writtenRows(swapped(22, 0, 18, 0));
    const fit = fitModel(rows, BARE, POISSON);
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept']);
    // 40 clusters on 10 m²
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(4), 6);
    expect(told(fit)).toContain('nobody found a cluster after Ada and Ben');
    // given found, the first diver had it with p/(1−(1−p)²) = 1/(2−p); the counts follow λ: 40 log(2−p) = 3.00
    const lower = 2 - Math.exp(DROP / 40);
    for (const d of diverReports(rows, fit, 0.95)) {
      expect(d).toMatchObject({ p: 1, se: null, upper: 1 });
      expect(d.lower).toBeCloseTo(lower, 6);
    }
    expect(pairReports(rows, fit).map((p) => [p.p, p.se])).toEqual([
      [1, null],
      [1, null],
    ]);
  });

  it('one diver after whom nobody found anything: his p is 1, the other’s follows from his own finds', () => {
    const rows = writtenRows(swapped(30, 0, 20, 5));
    const fit = fitModel(rows, BARE, POISSON);
    expect(told(fit)).toContain('nobody found a cluster after Ada:');
    const [ada, ben] = diverReports(rows, fit, 0.95);
    expect([ada.p, ada.se, ada.upper]).toEqual([1, null, 1]);
    expect(ben.p).toBeCloseTo(20 / 25, 6);
    // profile over Ben’s p at each p of Ada; the counts follow λ
    const conditional = (a: number, b: number): number => {
      const either = 1 - (1 - a) * (1 - b);
      return (
        30 * Math.log(a / either) + 20 * Math.log(b / either) + 5 * Math.log(((1 - b) * a) / either)
      );
    };
    const profile = (a: number): number => greatest((b) => conditional(a, b), 1e-6, 1 - 1e-9);
    const lower = root((a) => profile(1) - profile(a) - DROP, 0.01, 1 - 1e-9);
    expect(ada.lower).toBeCloseTo(lower, 5);
  });

  it('single passes alone: p = 1 by assumption, no limits, covariates of the detection left out', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [
          { first: 4, depthM: 2 },
          { first: 3, depthM: 4 },
        ],
      },
      { primary: 1, secondary: null, segments: [{ first: 2, depthM: 5 }] },
    ]);
    const fit = fitModel(rows, { ...BARE, detection: { ...BARE.detection, depth: true } }, POISSON);
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept']);
    expect(diverReports(rows, fit, 0.95).map((d) => [d.p, d.lower])).toEqual([
      [1, null],
      [1, null],
    ]);
  });

  it('full independence: finds of the second diver off the rope allow p = 1 on it', () => {
    const rows = writtenRows(
      [0, 1].map((primary) => ({
        design: 'distance',
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 20, offsetsM: [0.02, 0.1, 0.2, 0.35, 0.4] },
          { second: 2, offsetsM: [0.5, 0.9] },
          { first: 10, offsetsM: [0.1, 0.3, 0.45, 0.6, 0.05] },
        ],
      })),
    );
    const full = {
      ...BARE,
      detection: { ...BARE.detection, independence: 'full' as const, observer: false },
    };
    const fit = fitModel(rows, full, { ...POISSON, shape: 'half-normal' });
    expect(fit.converged).toBe(true);
    expect(fit.boundaries).toContain('p → 1 of Ada and Ben on distance transects');
    const [ada] = diverReports(rows, fit, 0.95);
    expect(ada.p).toBe(1);
    expect(ada.lower).toBeGreaterThan(0.3);
    expect(ada.lower).toBeLessThan(1);
  });

  it('the same with a covariate of the detection on belts beside: no p with an endless standard error is reported', () => {
    const offsetsM = [0.02, 0.1, 0.2, 0.35, 0.4];
    const both = [0, 1].flatMap((primary): WrittenTransect[] => [
      {
        design: 'distance',
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 20, offsetsM, plantCover: 1 },
          { second: 2, offsetsM: [0.5, 0.9], plantCover: 2 },
          { first: 10, offsetsM, plantCover: 3 },
        ],
      },
      {
        primary,
        secondary: 1 - primary,
        segments: [
          { first: 14, second: 2, plantCover: 0 },
          { first: 9, second: 4, plantCover: 3 },
        ],
      },
    ]);
    const detection = {
      ...BARE.detection,
      independence: 'full' as const,
      observer: false,
      plant_cover: true,
    };
    const fit = fitModel(
      writtenRows(both),
      { ...BARE, detection },
      { ...POISSON, shape: 'half-normal' },
    );
    expect(fit.converged).toBe(true);
    expect(fit.boundaries).toContain('p → 1 of Ada and Ben on distance transects');
    expect(termsOf(fit)).toContain('plant_cover');
    expect(seOf(fit, 'intercept:belt')).toBeLessThan(5);
  });
});

describe('divers who cannot be told apart', () => {
  it('roles never swapped: one p for both, 1 − second/first (Seber & Le Cren 1967)', () => {
    const rows = writtenRows([
      { primary: 0, secondary: 1, segments: [{ first: 50, second: 20 }] },
      { primary: 0, secondary: 1, segments: [{ first: 29, second: 8 }] },
    ]);
    const fit = fitModel(rows, BARE, POISSON);
    expect(termsOf(fit)).toEqual(['intercept', 'intercept:belt']);
    const reports = diverReports(rows, fit, 0.95);
    expect(reports.map((d) => d.observer)).toEqual([0, 1]);
    // 79 and 28, as in the published formulas: p 0.645569620253, SE 0.077952539426
    for (const d of reports) {
      expect(d.p).toBeCloseTo(0.645569620253, 7);
      expect(d.se).toBeCloseTo(0.077952539426, 7);
    }
  });

  it('never swapped, whatever the covariates: still one p', () => {
    const rows = writtenRows(
      [2, 3, 4, 6].map((depthM) => ({
        primary: 0,
        secondary: 1,
        segments: [{ first: 12 + depthM, second: 5, depthM, plantCover: depthM % 3 }],
      })),
    );
    const analysis = { ...BARE, detection: { ...BARE.detection, depth: true, plant_cover: true } };
    const fit = fitModel(rows, analysis, POISSON);
    expect(fit.converged).toBe(true);
    expect(fit.parts.divers.map((g) => g.observers)).toEqual([[0, 1]]);
  });

  it('two of four divers: those two share one p, the others keep their own, and a notice names the two', () => {
    const rows = writtenRows(
      [
        { primary: 0, secondary: 1, segments: [{ first: 60, second: 8 }] },
        { primary: 1, secondary: 0, segments: [{ first: 55, second: 10 }] },
        { primary: 2, secondary: 3, segments: [{ first: 40, second: 10, classes: [1] }] },
      ],
      4,
    );
    // their transect is the only one on its substrate: its density says nothing of their p
    const bySubstrate = choices({ density: { plant_cover: 'none', depth: 'none' } });
    const fit = fitModel(rows, bySubstrate, POISSON);
    expect(fit.parts.divers.map((g) => [g.observers, g.term])).toEqual([
      [[0], 'observer:Ada:belt'],
      [[1], 'observer:Ben:belt'],
      [[2, 3], 'observer:Cy=Dan:belt'],
    ]);
    expect(told(fit)).toContain('Cy and Dan cannot be told apart on belt transects');
    expect(fit.converged).toBe(true);
    const p = diverReports(rows, fit, 0.95).map((d) => d.p);
    expect(p[2]).toBe(p[3]);
    expect(p[2]).toBeCloseTo(1 - 10 / 40, 6);
  });

  it('a diver who only ever dived alone is joined with all', () => {
    const rows = writtenRows(
      [
        ...swapped(60, 8, 55, 10),
        { primary: 2, secondary: null, segments: [{ first: 40 }] },
        { primary: 2, secondary: null, segments: [{ first: 60, classes: [1] }] },
      ],
      3,
    );
    // a density by substrate and transect of its own leaves nothing to tell his p by
    const alone = {
      ...rows,
      segments: rows.segments.map((s) => (s.primary === 2 ? { ...s, classes: [1] } : s)),
    };
    const fit = fitModel(
      alone,
      choices({ density: { plant_cover: 'none', depth: 'none' } }),
      POISSON,
    );
    expect(fit.parts.divers.map((g) => g.observers)).toEqual([[0, 1, 2]]);
    expect(told(fit)).toContain('Ada, Ben and Cy cannot be told apart');
  });

  it.each([
    ['as many', 20, 20],
    ['more', 15, 24],
  ])('the second pass found %s: refused, with what would help', (_, first, second) => {
    const rows = writtenRows([
      { primary: 0, secondary: 1, segments: [{ first, second }] },
      { primary: 0, secondary: 1, segments: [{ first, second }] },
    ]);
    for (const candidate of [POISSON, NB1, NB2]) {
      let caught: unknown;
      try {
        fitModel(rows, BARE, candidate);
      } catch (error) {
        caught = error;
      }
      expect(caught).toBeInstanceOf(NotIdentified);
      expect((caught as NotIdentified).code).toBe('density-not-identified');
      expect((caught as NotIdentified).message).toContain('belt transects');
      expect((caught as NotIdentified).message.length).toBeGreaterThan(60);
    }
  });

  it('the first divers found nothing: refused', () => {
    const rows = writtenRows(swapped(0, 7, 0, 3));
    expect(() => fitModel(rows, BARE, POISSON)).toThrow('the first divers found nothing');
  });

  it('one of the designs found nothing: refused, its detection would run to 0', () => {
    const rows = writtenRows([
      ...swapped(20, 3, 18, 4),
      { design: 'distance', primary: 0, secondary: 1, segments: [{}] },
      { design: 'distance', primary: 1, secondary: 0, segments: [{}] },
    ]);
    expect(() => fitModel(rows, BARE, { ...POISSON, shape: 'half-normal' })).toThrow(
      'nothing was found on the distance transects',
    );
  });
});

describe('separation', () => {
  const single = (segments: WrittenTransect['segments']): WrittenTransect => ({
    primary: 0,
    secondary: null,
    segments,
  });

  it('a substrate without finds: density 0, at most 3.00/Σa, no coefficient, and it stays in n', () => {
    const rows = writtenRows(
      [
        single([
          { first: 6, classes: [1] },
          { classes: [0], areaM2: 4 },
          { first: 3, classes: [2], areaM2: 3 },
        ]),
        single([
          { first: 2, classes: [1] },
          { classes: [0], areaM2: 7 },
          { classes: [0, 1], areaM2: 2 },
        ]),
      ],
      2,
      3,
    );
    const fit = fitModel(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'none' } }),
      POISSON,
    );
    // mud is separated: sand is the reference
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:gravel']);
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(8 / 10), 6);
    expect(coefficient(fit, 'substrate:gravel')).toBeCloseTo(Math.log(1 / 0.8), 6);
    const limits = classLimits(rows, fit, 0.95);
    expect(limits.map((l) => [l.name, l.kind])).toEqual([['mud', 'substrate']]);
    // 13 m² with weight on mud, p = 1
    expect(limits[0].upper).toBeCloseTo(DROP / 13, 6);
    // AICc counts all 6 segments: −2ℓ + 2·2 + 2·2·3/(6−3)
    expect(fit.aicc).toBeCloseTo(-2 * fit.logLikelihood + 4 + 4, 10);
  });

  it('a plant class without finds, alone and beside a substrate without finds', () => {
    const rows = writtenRows(
      [
        single([
          { first: 6, plantCover: 0 },
          { plantCover: 3, areaM2: 4 },
          { first: 4, plantCover: 1 },
        ]),
        single([
          { first: 2, plantCover: 1 },
          { plantCover: 3, areaM2: 2 },
          { classes: [1], plantCover: 1, areaM2: 8 },
        ]),
      ],
      2,
      2,
    );
    const fit = fitModel(
      rows,
      choices({ density: { plant_cover: 'classes', depth: 'none' } }),
      POISSON,
    );
    expect(termsOf(fit)).toEqual(['intercept', 'plant_cover:1']);
    const limits = new Map(classLimits(rows, fit, 0.95).map((l) => [l.name, l.upper]));
    expect(limits.get('plant_cover:3')).toBeCloseTo(DROP / 6, 6);
    expect(limits.get('sand')).toBeCloseTo(DROP / 8, 6);
    expect(classLimits(rows, fit, 0.9)[0].upper).toBeCloseTo(-Math.log(0.1) / 8, 6);
  });

  it('with p estimated the limit is that of an independent profile', () => {
    const rows = writtenRows(
      [
        ...swapped(12, 3, 10, 4),
        { primary: 0, secondary: 1, segments: [{ classes: [1], areaM2: 9 }] },
      ],
      2,
      2,
    );
    const common = choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { observer: false },
    });
    const fit = fitModel(rows, common, POISSON);
    const [sand] = classLimits(rows, fit, 0.95);
    // conditional on the 29 found: 22 log(p/p*) + 7 log((1−p)p/p*), the mud counts follow λ; sand adds −9 λ p*
    const value = (lambda: number, p: number): number => {
      const either = 1 - (1 - p) ** 2;
      return 22 * Math.log(p / either) + 7 * Math.log(((1 - p) * p) / either) - 9 * lambda * either;
    };
    const profile = (lambda: number): number => greatest((p) => value(lambda, p), 1e-6, 1 - 1e-9);
    const upper = root((l) => profile(0) - profile(l) - DROP, 1e-9, 10);
    expect(sand.upper).toBeCloseTo(upper, 6);
    expect(sand.upper).toBeGreaterThan(DROP / 9);
  });

  it('no limit when the finds cannot hold p away from 0', () => {
    const rows = writtenRows(
      [
        ...swapped(2, 1, 2, 1),
        { primary: 0, secondary: 1, segments: [{ classes: [1], areaM2: 9 }] },
      ],
      2,
      2,
    );
    const common = choices({
      density: { plant_cover: 'none', depth: 'none' },
      detection: { observer: false },
    });
    const fit = fitModel(rows, common, POISSON);
    // 4 and 2: the profile at p → 0 is 6 log(1/2) against 4 log(2/3) + 2 log(1/3), a drop of 0.34 only
    expect(classLimits(rows, fit, 0.95)[0].upper).toBe(Infinity);
  });

  it('a steep curve of depth is no direction without end', () => {
    // found by the hundred around 3 m, nothing from 9 m down to 30 m: the log density falls below −60 there
    const rows = writtenRows([
      single(
        [1, 2, 3, 4, 5, 6, 7].map((d) => ({
          depthM: d,
          first: Math.round(60 * Math.exp(-((d - 3) ** 2) / 4)),
        })),
      ),
      single([9, 12, 20, 30].map((d) => ({ depthM: d }))),
    ]);
    const steep = choices({
      density: { substrate: false, plant_cover: 'none', depth: 'quadratic' },
    });
    const fit = fitModel(rows, steep, POISSON);
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept', 'depth', 'depth^2']);
    // the curve that the counts were made from: −(d−3)²/4
    expect(coefficient(fit, 'depth^2')).toBeCloseTo(-0.25, 1);
  });

  it('the last term of a direction without end is left out, and no other', () => {
    // linear in depth: found at 2 m only, never deeper, on each of two substrates
    const rows = writtenRows([
      single([
        { depthM: 2, first: 9 },
        { depthM: 2, first: 4, classes: [1] },
        { depthM: 5 },
        { depthM: 6, classes: [1] },
      ]),
      single([
        { depthM: 2, first: 7 },
        { depthM: 2, first: 6, classes: [1] },
        { depthM: 7 },
        { depthM: 8, classes: [1] },
      ]),
    ]);
    const fit = fitModel(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'linear' } }),
      POISSON,
    );
    expect(fit.converged).toBe(true);
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:sand']);
    expect(told(fit)).toContain('depth is left out of the density');
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(16 / 20), 6);
  });
});

describe('families on their boundary', () => {
  it('every cluster a lone mussel: m → 0, mean size 1 without error', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    const fit = fitModel(rows, BARE, POISSON);
    expect(fit.parts.sizeFamily).toBe('lone');
    expect(fit.boundaries).toEqual(['m → 0: every cluster is a lone mussel']);
    expect(meanClusterSize(rows, fit)).toEqual({ value: 1, se: 0 });
  });

  it('sizes without spread: k → ∞, log m by hand', () => {
    const transects = swapped(20, 4, 15, 5).map((t) => ({
      ...t,
      segments: t.segments.map((s) => ({ ...s, counts: [3] })),
    }));
    const rows = writtenRows(transects);
    const fit = fitModel(rows, BARE, POISSON);
    expect(fit.parts.sizeFamily).toBe('poisson');
    const size = fit.likelihood.layout.size;
    expect(fit.theta[size]).toBeCloseTo(Math.log(2), 6);
    // Poisson mean 2 from 44 clusters: se of log m = 1/√(44·2)
    expect(Math.sqrt(fit.covariance[size * fit.theta.length + size])).toBeCloseTo(
      1 / Math.sqrt(88),
      6,
    );
    expect(meanClusterSize(rows, fit).value).toBeCloseTo(3, 6);
  });

  it.each([NB1, NB2])('counts without spread: $family becomes Poisson', (candidate) => {
    const rows = writtenRows([
      { primary: 0, secondary: null, segments: [{ first: 4 }, { first: 5 }, { first: 4 }] },
      { primary: 1, secondary: null, segments: [{ first: 5 }, { first: 4 }, { first: 5 }] },
    ]);
    const fit = fitModel(rows, BARE, candidate);
    expect(fit.parts.family).toBe('poisson');
    expect(fit.boundaries.join()).toContain('Poisson');
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(27 / 30), 6);
    expect(seOf(fit, 'intercept')).toBeCloseTo(1 / Math.sqrt(27), 6);
    expect(fit.logLikelihood).toBeCloseTo(fitModel(rows, BARE, POISSON).logLikelihood, 10);
  });

  it('transects that do not differ: τ → 0 becomes the model without', () => {
    const rows = writtenRows([
      { primary: 0, secondary: null, segments: [{ first: 1 }, { first: 8 }] },
      { primary: 1, secondary: null, segments: [{ first: 7 }, { first: 2 }] },
      { primary: 1, secondary: null, segments: [{ first: 5 }, { first: 4 }] },
    ]);
    const fit = fitModel(rows, BARE, { ...NB1, transectEffect: true });
    expect(fit.parts.transectEffect).toBe(false);
    expect(fit.logLikelihood).toBeCloseTo(fitModel(rows, BARE, NB1).logLikelihood, 8);
  });

  it.each(['half-normal', 'hazard-rate'] as const)(
    'offsets that do not fall off: %s becomes flat',
    (shape) => {
      // more finds far from the rope than near it
      const offsetsM = [0.05, 0.3, 0.45, 0.6, 0.7, 0.75, 0.85, 0.9, 0.95, 0.99];
      const rows = writtenRows(
        [0, 1].map((primary) => ({
          design: 'distance',
          primary,
          secondary: 1 - primary,
          segments: [
            { first: 30, offsetsM },
            { second: 10, offsetsM },
          ],
        })),
      );
      const fit = fitModel(rows, BARE, { ...POISSON, shape });
      expect(fit.converged).toBe(true);
      expect(fit.parts.shape).toBe('flat');
      expect(fit.boundaries.filter((b) => b.includes('does not fall'))).toHaveLength(1);
    },
  );

  it('a step of detection: b is held at its greatest and σ lies at the farthest find', () => {
    const offsetsM = Array.from({ length: 40 }, (_, i) => (0.5 * (i + 0.5)) / 40);
    const rows = writtenRows([
      {
        design: 'distance',
        primary: 0,
        secondary: null,
        halfWidthM: 1,
        segments: [{ first: 40, offsetsM }],
      },
      {
        design: 'distance',
        primary: 1,
        secondary: null,
        halfWidthM: 1,
        segments: [{ first: 40, offsetsM }],
      },
    ]);
    const fit = fitModel(rows, BARE, { ...POISSON, shape: 'hazard-rate' });
    expect(fit.converged).toBe(true);
    expect(fit.parts.fixedB).toBe(80);
    expect(Math.exp(coefficient(fit, 'log_sigma'))).toBeGreaterThan(0.49);
    expect(Math.exp(coefficient(fit, 'log_sigma'))).toBeLessThan(0.53);
  });
});

describe('the start from another model', () => {
  it('does no harm: from values far off the same top is reached as without them', () => {
    const rows = writtenRows(
      swapped(20, 4, 15, 5).map((t) => ({
        ...t,
        segments: t.segments.map((s) => ({ ...s, counts: [1, 2, 1, 5, 3] })),
      })),
    );
    const sized = { ...BARE, detection: { ...BARE.detection, cluster_size: true } };
    const cold = fitModel(rows, sized, POISSON);
    // all p near 0 and the density to match: from there the climb goes on to 0, which is refused
    const far = new Map([
      ['density|intercept', 14],
      ['detection|observer:Ada:belt', -12],
      ['detection|observer:Ben:belt', -12],
    ]);
    const warm = fitModel(rows, sized, POISSON, far);
    expect(warm.converged).toBe(true);
    expect(termsOf(warm)).toEqual(termsOf(cold));
    expect(warm.logLikelihood).toBeCloseTo(cold.logLikelihood, 8);
  });
});

describe('little to go on', () => {
  it('one segment of one transect', () => {
    const rows = writtenRows(
      [{ primary: 0, secondary: null, segments: [{ first: 7, areaM2: 10 }] }],
      1,
      1,
    );
    const fit = fitModel(rows, choices(), POISSON);
    expect(termsOf(fit)).toEqual(['intercept']);
    expect(coefficient(fit, 'intercept')).toBeCloseTo(Math.log(0.7), 6);
    expect(fit.aicc).toBeNull();
  });

  it('one substrate and one depth: their columns are gone, with a notice for depth', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    for (const depth of ['linear', 'quadratic', 'curve'] as const) {
      const fit = fitModel(rows, choices({ density: { plant_cover: 'none', depth } }), POISSON);
      expect(
        termsOf(fit).filter((t) => t.startsWith('depth') || t.startsWith('substrate')),
      ).toEqual([]);
      expect(told(fit)).toContain('depth');
    }
  });

  it('few depths: knots coincide, df falls, a notice says how many are left', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [2, 2, 2, 2, 5, 5].map((depthM) => ({ depthM, first: depthM })),
      },
    ]);
    const fit = fitModel(
      rows,
      choices({ density: { plant_cover: 'none', depth: 'curve', depth_df: 5 } }),
      POISSON,
    );
    // quantiles 0 to 1 by fifths of 2 2 2 2 5 5: 2 2 2 2 5 5, two knots, one column
    expect(termsOf(fit)).toEqual(['intercept', 'depth:1']);
    expect(told(fit)).toContain('room for 1 of the 5 columns');
    // linear through both depths: densities 2/5 and 5/5
    expect(Math.exp(coefficient(fit, 'intercept'))).toBeCloseTo(0.4, 6);
  });

  it('a column that repeats others is left out and both are named', () => {
    const rows = writtenRows(
      [
        {
          primary: 0,
          secondary: null,
          segments: [
            { classes: [0], plantCover: 1, first: 4 },
            { classes: [1], plantCover: 3, first: 6 },
          ],
        },
        {
          primary: 0,
          secondary: null,
          segments: [
            { classes: [0], plantCover: 1, first: 3 },
            { classes: [1], plantCover: 3, first: 9 },
          ],
        },
      ],
      1,
      2,
    );
    const fit = fitModel(rows, choices({ density: { depth: 'none' } }), POISSON);
    expect(termsOf(fit)).toEqual(['intercept', 'substrate:sand']);
    expect(told(fit)).toContain(
      'plant_cover is left out of the density: it repeats intercept, substrate:sand',
    );
  });

  it('the same in the detection and in the cluster size', () => {
    const transects = [0, 1].map(
      (primary): WrittenTransect => ({
        primary,
        secondary: 1 - primary,
        clarityM: 4,
        segments: [
          { classes: [0], plantCover: 1, first: 14, second: 3, counts: [1, 2, 4] },
          { classes: [1], plantCover: 3, first: 16, second: 5, counts: [1, 1, 3] },
        ],
      }),
    );
    const fit = fitModel(
      writtenRows(transects),
      choices({
        density: { depth: 'none', plant_cover: 'none' },
        detection: { plant_cover: true, substrate: true, clarity: true },
      }),
      POISSON,
    );
    expect(fit.converged).toBe(true);
    expect(fit.parts.detection.map((t) => t.name)).toEqual(['plant_cover']);
    expect(told(fit)).toContain('substrate:sand is left out of the detection: it repeats');
    expect(told(fit)).toContain('clarity is left out of the detection: it repeats');
  });
});

describe('the choice by AICc', () => {
  it('compares all combinations; a model on its boundary is what it becomes, and ties go to fewer parameters', () => {
    const rows = writtenRows([
      {
        primary: 0,
        secondary: null,
        segments: [{ first: 4 }, { first: 5 }, { first: 4 }, { first: 5 }],
      },
      {
        primary: 1,
        secondary: null,
        segments: [{ first: 5 }, { first: 4 }, { first: 5 }, { first: 4 }],
      },
    ]);
    const { fit, models } = chooseModel(rows, BARE);
    expect(models.map((m) => [m.family, m.transect_effect])).toEqual([
      ['poisson', false],
      ['nb1', false],
      ['nb2', false],
      ['poisson', true],
      ['nb1', true],
      ['nb2', true],
    ]);
    expect(fit.parts.family).toBe('poisson');
    expect(fit.parts.transectEffect).toBe(false);
    for (const m of models) {
      expect(m.parameters).toBe(1);
      expect(m.aicc).toBeCloseTo(models[0].aicc as number, 8);
    }
  });

  it('when no model has an AICc the plain one is taken, with a notice', () => {
    const rows = writtenRows(swapped(20, 4, 15, 5));
    const { fit, notices, models } = chooseModel(rows, BARE);
    expect(models.every((m) => m.aicc === null)).toBe(true);
    expect([fit.parts.family, fit.parts.transectEffect]).toEqual(['poisson', false]);
    expect(notices.map((n) => n.code)).toEqual(['too-few-segments']);
  });

  it.each([
    // found on eight transects of two equal segments: from little to much difference between transects
    ['lowers AICc by 2.5: left out', [14, 6, 9, 15, 5, 10, 8, 13], 2.5, false],
    ['lowers AICc by 1.2 only: kept', [16, 4, 9, 15, 5, 10, 8, 13], 1.2, true],
    ['raises AICc by 4.7: kept', [18, 4, 9, 15, 5, 10, 3, 16], -4.7, true],
  ])('leaving the transect effect out %s', (_, found, gain, kept) => {
    const rows = writtenRows(
      found.map((n) => ({
        primary: 0,
        secondary: null,
        segments: [{ first: Math.floor(n / 2) }, { first: Math.ceil(n / 2) }],
      })),
      1,
    );
    const poisson = { ...BARE, density: { ...BARE.density, family: 'poisson' as const } };
    const { fit, models } = chooseModel(rows, poisson);
    const [without, withEffect] = models.map((m) => m.aicc as number);
    // the premise of the case, to one decimal
    expect(Math.abs(withEffect - without - gain)).toBeLessThan(0.05);
    expect(fit.parts.transectEffect).toBe(kept);
  });

  it('no candidate fits: the reason is told', () => {
    const rows = writtenRows([{ primary: 0, secondary: 1, segments: [{ first: 10, second: 15 }] }]);
    expect(() => chooseModel(rows, BARE)).toThrow(NotIdentified);
  });
});
