/**
 * Surveys with a known truth: what a design of so many ropes, divers and clusters can deliver. Every lake here is
 * invented: a bed of silt, sand, gravel and rock from 0.5 to 6.5 m, plants thinning with depth.
 */

import type { SegmentRow, SurveyRows } from '../../../models/data.ts';
import { seeded } from '../../../models/numbers/random.ts';
import type { RehearsalInput } from '../../../models/rehearse.ts';
import { logDensity, meanClusterSize, type Truth } from '../../../models/truth.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import type { Design } from '../../../shared/survey.ts';

const CLASSES = ['silt', 'sand', 'gravel', 'rock'];
const DIVERS = ['A', 'B'];
export const SEGMENT_M = 5;
const ROPE_M = 30;
const DEPTHS = { fromM: 1, toM: 6 };
const TOLERANCE_M = 0.5;
/** Depth at which `perM2` is stated. */
const MIDDLE_M = 3.5;

export interface Scenario {
  name: string;
  transects: number;
  design: Design | 'both';
  /** mean clusters per m² on sand at 3.5 m without plants */
  perM2: number;
  family: Truth['density']['family'];
  dispersion: number | null;
  transectSd: number;
  /** of each diver, at offset 0, a lone mussel */
  p: [number, number];
  shape?: Truth['detection']['shape'];
  independence?: 'full' | 'point';
  logCount?: number;
  /** log_count is in the truth and in the model */
  sizeInModel?: boolean;
  /** share of the clusters that neither diver could ever see (a wrong model) */
  hidden?: number;
  /** how density goes with depth; left out: a hump of moderate height at 3.5 m */
  depth?: keyof typeof DEPTH_EFFECTS;
  /** a step in depth and a substrate that turns round below it, which no curve follows (a wrong model) */
  step?: boolean;
}

/** log density by metre and metre², 0 at 3.5 m: the hump is 0.7 below its top at the ends of the bed, the strong one 2.9. */
const DEPTH_EFFECTS = {
  none: { linear: 0, squared: 0 },
  gentle: { linear: 0.12, squared: 0 },
  hump: { linear: 0.56, squared: -0.08 },
  strong: { linear: 2.24, squared: -0.32 },
} as const;

const base = {
  transects: 30,
  design: 'belt' as const,
  perM2: 0.5,
  family: 'nb1' as const,
  dispersion: 0.8,
  transectSd: 0.3,
  p: [0.8, 0.7] as [number, number],
};
const halfNormal = { kind: 'half-normal' as const, sigma_m: 0.55 };
const hazard = { kind: 'hazard-rate' as const, sigma_m: 0.5, b: 4 };

export const SCENARIOS: Scenario[] = [
  { ...base, name: 'belt, 30 transects' },
  { ...base, name: 'belt, 10 transects', transects: 10 },
  { ...base, name: 'belt, 20 transects', transects: 20 },
  { ...base, name: 'belt, 60 transects', transects: 60 },
  { ...base, name: 'belt, sparse', perM2: 0.12 },
  { ...base, name: 'belt, 30 transects, gentle slope of depth', depth: 'gentle' },
  { ...base, name: 'belt, 30 transects, no effect of depth', depth: 'none' },
  { ...base, name: 'belt, 30 transects, strongly bent depth', depth: 'strong' },
  { ...base, name: 'belt, 8 transects', transects: 8 },
  { ...base, name: 'belt, 8 transects, gentle slope of depth', transects: 8, depth: 'gentle' },
  { ...base, name: 'belt, rare', perM2: 0.04 },
  { ...base, name: 'belt, rare, gentle slope of depth', perM2: 0.04, depth: 'gentle' },
  { ...base, name: 'belt, dense', perM2: 5 },
  {
    ...base,
    name: 'belt, Poisson, transects alike',
    family: 'poisson',
    dispersion: null,
    transectSd: 0,
  },
  { ...base, name: 'belt, strong clumping (nb1, φ = 4)', dispersion: 4 },
  { ...base, name: 'belt, strong clumping (nb2, θ = 0.7)', family: 'nb2', dispersion: 0.7 },
  { ...base, name: 'belt, transects differ much (τ = 0.8)', transectSd: 0.8 },
  { ...base, name: 'belt, poor detection (0.45, 0.3)', p: [0.45, 0.3], perM2: 1 },
  { ...base, name: 'belt, good detection (0.95, 0.9)', p: [0.95, 0.9] },
  {
    ...base,
    name: 'belt, large clusters detected more',
    logCount: 0.6,
    p: [0.65, 0.5],
    sizeInModel: true,
  },
  {
    ...base,
    name: 'distance, half-normal, full',
    design: 'distance',
    shape: halfNormal,
    independence: 'full',
  },
  { ...base, name: 'distance, half-normal, point', design: 'distance', shape: halfNormal },
  { ...base, name: 'distance, hazard-rate, point', design: 'distance', shape: hazard },
  { ...base, name: 'both designs', design: 'both', shape: halfNormal, independence: 'full' },
  { ...base, name: 'wrong: a fifth hidden from both', hidden: 0.2 },
  { ...base, name: 'wrong: large detected more, not in the model', logCount: 0.6, p: [0.65, 0.5] },
  { ...base, name: 'wrong: density steps with depth', step: true },
];

export interface Prepared {
  input: RehearsalInput;
  totals: { clusters: number; mussels: number };
}

const logit = (p: number): number => Math.log(p / (1 - p));

export function prepare(s: Scenario, seed: number): Prepared {
  const truth = truthOf(s);
  const rows = divesOf(s);
  const { habitats, pieces, at } = bedOf();
  const density = (h: { substrate: string[]; plantCover: number; depthM: number }): number =>
    logDensity(truth, h) + (s.step ? stepOf(h) : 0);
  const raise = Math.exp(s.transectSd ** 2 / 2);
  let clusters = 0;
  let mussels = 0;
  for (const piece of at) {
    const own = piece.areaM2 * Math.exp(density(piece)) * raise;
    clusters += own;
    mussels += own * meanClusterSize(truth, piece.substrate);
  }
  const seen = Math.log(1 - (s.hidden ?? 0));
  return {
    input: {
      rows,
      analysis: analysisOf(s),
      truth,
      logDensity: rows.segments.map(
        (r) =>
          density({
            substrate: r.classes.map((c) => CLASSES[c]),
            plantCover: r.plantCover,
            depthM: r.depthM,
          }) + seen,
      ),
      habitats,
      pieces,
      seed,
    },
    totals: { clusters, mussels },
  };
}

function truthOf(s: Scenario): Truth {
  const [a, b] = s.p;
  const depth = DEPTH_EFFECTS[s.depth ?? 'hump'];
  const both = (p: number): Record<Design, number> => ({ belt: logit(p), distance: logit(p) });
  return {
    density: {
      family: s.family,
      dispersion: s.dispersion,
      transect_sd: s.transectSd,
      intercept: Math.log(s.perM2) - (depth.linear + depth.squared * MIDDLE_M) * MIDDLE_M,
      substrate: { silt: -0.6, sand: 0, gravel: 0.6, rock: 1 },
      plant_cover: -0.1,
      depth: depth.linear,
      depth_squared: depth.squared,
    },
    detection: {
      observers: { A: both(a), B: both(b) },
      substrate: {},
      plant_cover: 0,
      depth: 0,
      clarity: 0,
      log_count: s.logCount ?? 0,
      shape: s.shape ?? null,
      independence: s.independence ?? 'point',
      offset: 0,
    },
    cluster_size: { extra_mean: 1.5, k: 1, substrate: {} },
  };
}

/** Twice the density below 4 m on silt and sand, half on gravel and rock. */
function stepOf(h: { substrate: string[]; depthM: number }): number {
  if (h.depthM < 4) return 0;
  return h.substrate[0] === 'silt' || h.substrate[0] === 'sand' ? Math.LN2 : -Math.LN2;
}

function analysisOf(s: Scenario): Analysis {
  const analysis = structuredClone(DEFAULT_ANALYSIS);
  analysis.substrates = CLASSES;
  analysis.detection.cluster_size = s.sizeInModel ?? false;
  analysis.detection.independence = s.independence ?? 'point';
  return analysis;
}

/** Ropes from 1 m down to 4–6 m, a new habitat every 5 to 10 m; roles swapped from rope to rope. */
function divesOf(s: Scenario): SurveyRows {
  const random = seeded(2026);
  const segments: SegmentRow[] = [];
  for (let t = 0; t < s.transects; t++) {
    const design: Design = s.design === 'both' ? (t % 4 < 2 ? 'belt' : 'distance') : s.design;
    const deepest = 4 + 2 * random.uniform();
    let at = random.integer(CLASSES.length);
    for (let from = 0; from < ROPE_M; from += SEGMENT_M) {
      if (from > 0 && random.uniform() < 0.6)
        at = Math.max(0, Math.min(3, at + (random.uniform() < 0.5 ? 1 : -1)));
      const depthM = DEPTHS.fromM + ((deepest - DEPTHS.fromM) * (from + SEGMENT_M / 2)) / ROPE_M;
      segments.push({
        transect: t,
        design,
        areaM2: SEGMENT_M * (design === 'belt' ? 1 : 2),
        halfWidthM: design === 'belt' ? 0.5 : 1,
        classes: [at],
        plantCover: plantsAt(depthM, random.uniform()),
        depthM,
        clarityM: null,
        primary: t % 2,
        secondary: 1 - (t % 2),
      });
    }
  }
  return {
    segments,
    clusters: [],
    transectCount: s.transects,
    classNames: CLASSES,
    observerNames: DIVERS,
  };
}

const plantsAt = (depthM: number, u: number): number =>
  Math.max(0, Math.min(4, Math.floor(4.5 - 0.6 * depthM + 2 * (u - 0.5))));

/** 40 ha: every class and plant cover in steps of 0.1 m of depth. */
function bedOf() {
  const habitats = CLASSES.flatMap((_, c) =>
    [0, 1, 2, 3, 4].map((plantCover) => ({ classes: [c], plantCover })),
  );
  const at: {
    habitat: number;
    substrate: string[];
    plantCover: number;
    depthM: number;
    areaM2: number;
  }[] = [];
  const share = [0.4, 0.35, 0.17, 0.08];
  for (let d = DEPTHS.fromM - TOLERANCE_M + 0.05; d < DEPTHS.toM + TOLERANCE_M; d += 0.1) {
    for (let c = 0; c < CLASSES.length; c++) {
      const plantCover = plantsAt(d, 0.5);
      at.push({
        habitat: c * 5 + plantCover,
        substrate: [CLASSES[c]],
        plantCover,
        depthM: d,
        areaM2: share[c] * 7000,
      });
    }
  }
  return {
    habitats,
    at,
    pieces: {
      count: at.length,
      habitat: Uint16Array.from(at, (p) => p.habitat),
      areaM2: Float64Array.from(at, (p) => p.areaM2),
      depthM: Float64Array.from(at, (p) => p.depthM),
      band: Uint16Array.from(at, (p) => p.depthM),
      reason: new Uint8Array(at.length),
    },
  };
}
