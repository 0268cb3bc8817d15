/**
 * One model fitted to one survey: start, Newton steps, and what the method says of boundaries, of divers who cannot be
 * told apart and of directions without end. Each of these changes the model's parts and fits again, so that what is
 * reported is always the maximum of a stated model.
 */

import type { Analysis } from '../shared/analysis.ts';
import type { Family, Shape } from '../shared/estimate.ts';
import { type ModelNotice, NotIdentified, type SurveyRows } from './data.ts';
import { densityDesign, plantLevel } from './density/design.ts';
import { detectionDesign, sizeDesign } from './detection/design.ts';
import { firstGroups, joinDivers } from './detection/divers.ts';
import { compileLikelihood, type Likelihood } from './likelihood.ts';
import { type Maximum, maximise } from './numbers/newton.ts';
import { quadraticForm, symmetricEigen } from './numbers/solve.ts';
import { type DiverGroup, type ModelParts, parameterKey } from './parts.ts';
import { meanCovariates, startValues } from './start.ts';

/** One of the models compared by AICc. */
export interface Candidate {
  family: Family;
  transectEffect: boolean;
  /** null without distance transects */
  shape: Shape | null;
}

export interface Fit {
  candidate: Candidate;
  parts: ModelParts;
  likelihood: Likelihood;
  theta: Float64Array;
  /** inverse of the observed information */
  covariance: Float64Array;
  logLikelihood: number;
  /** number of estimated parameters */
  parameters: number;
  /** null when n − k − 1 ≤ 0 */
  aicc: number | null;
  gradientMax: number;
  converged: boolean;
  /** what ended on its boundary, in words */
  boundaries: string[];
  notices: ModelNotice[];
}

/** AICc (Hurvich & Tsai 1989); null where it is not defined. */
export function aiccOf(logLikelihood: number, k: number, n: number): number | null {
  return n - k - 1 <= 0 ? null : -2 * logLikelihood + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

/** Beyond these a parameter has left the range in which it matters: it is on its boundary. */
const LOG_PHI_ZERO = -12;
const LOG_SIZE_INFINITE = 15;
const LOG_TAU_ZERO = -6;
/** (w/σ)²/2 is then 3e-6 */
const LOG_SIGMA_FLAT = 6;
/** hazard-rate's b: the steepest shoulder that the quadrature holds to 1e-9 */
export const GREATEST_B = 80;
const ENDLESS = -30;
const LOGIT_ENDLESS = 15;
const ROUNDS = 40;

/**
 * @param warm parameters of an earlier fit by part and term, as start
 * @throws NotIdentified when the survey cannot give a density
 */
export function fitModel(
  rows: SurveyRows,
  analysis: Analysis,
  candidate: Candidate,
  warm?: Map<string, number>,
): Fit {
  const state = new FitState(rows, analysis, candidate);
  let known = warm ?? new Map<string, number>();
  for (let round = 0; round < ROUNDS; round++) {
    const likelihood = compileLikelihood(rows, state.parts());
    const best = climb(rows, likelihood, known);
    known = named(likelihood, best.point);
    if (state.amend(likelihood, best)) continue;
    return {
      candidate,
      parts: likelihood.parts,
      likelihood,
      theta: best.point,
      covariance: best.covariance ?? new Float64Array(best.point.length ** 2).fill(Number.NaN),
      logLikelihood: best.value,
      parameters: best.point.length,
      aicc: aiccOf(best.value, best.point.length, rows.segments.length),
      gradientMax: best.gradientMax,
      converged: best.converged,
      boundaries: state.boundaries,
      notices: state.allNotices(),
    };
  }
  throw new Error(
    `the fit changed its parts ${ROUNDS} times without settling (${candidate.family})`,
  );
}

export function named(likelihood: Likelihood, theta: Float64Array): Map<string, number> {
  return new Map(
    likelihood.layout.parameters.map((p, i) => [parameterKey(p.part, p.term), theta[i]]),
  );
}

/** The best maximum over the starts. */
function climb(rows: SurveyRows, likelihood: Likelihood, known: Map<string, number>): Maximum {
  let best: Maximum | null = null;
  for (const start of startValues(rows, likelihood, known)) {
    let found: Maximum;
    try {
      found = maximise(likelihood.evaluate, start, {
        stop: (p) => runsAway(rows, likelihood, p) !== null,
      });
    } catch (error) {
      if (error instanceof RangeError && error.message.startsWith('the start')) continue;
      throw error;
    }
    const better =
      best === null ||
      (found.converged && !best.converged) ||
      (found.converged === best.converged && found.value > best.value + 1e-9);
    if (better) best = found;
  }
  if (!best) throw new Error('no start of the fit has a finite likelihood');
  return best;
}

type Runaway = 'dispersion' | 'size' | 'tau' | 'sigma' | 'b' | 'divers' | 'linear';

/** Which parameter has left its range, if any. */
function runsAway(
  rows: SurveyRows,
  { parts, layout, segments }: Likelihood,
  theta: Float64Array,
): Runaway | null {
  if (layout.dispersion >= 0) {
    const value = theta[layout.dispersion];
    if (parts.family === 'nb1' ? value < LOG_PHI_ZERO : value > LOG_SIZE_INFINITE)
      return 'dispersion';
  }
  if (layout.logK >= 0 && theta[layout.logK] > LOG_SIZE_INFINITE) return 'size';
  if (layout.logTau >= 0 && theta[layout.logTau] < LOG_TAU_ZERO) return 'tau';
  if (layout.logB >= 0 && theta[layout.logB] > Math.log(GREATEST_B)) return 'b';
  if (layout.logSigma >= 0) {
    const widest = Math.max(
      ...rows.segments.map((s) => (s.design === 'distance' ? s.halfWidthM : 0)),
    );
    if (theta[layout.logSigma] - Math.log(widest) > LOG_SIGMA_FLAT) return 'sigma';
  }
  const means = meanCovariates(rows, parts);
  for (const index of layout.divers) {
    if (index < 0) continue;
    let logit = theta[index];
    if (layout.detection >= 0) means.forEach((z, i) => (logit += z * theta[layout.detection + i]));
    if (Math.abs(logit) > LOGIT_ENDLESS) return 'divers';
  }
  for (const s of segments) {
    let eta = 0;
    for (let i = 0; i < s.x.length; i++) eta += s.x[i] * theta[layout.density + i];
    if (eta < ENDLESS) return 'linear';
  }
  if (layout.size >= 0 && parts.sizeFamily !== 'lone') {
    for (const c of rows.clusters) {
      let logM = 0;
      parts.size.forEach(
        (t, i) => (logM += t.value(rows.segments[c.segment]) * theta[layout.size + i]),
      );
      if (logM < ENDLESS) return 'linear';
    }
  }
  if (layout.detection >= 0) {
    for (const s of rows.segments) {
      let shift = 0;
      parts.detection.forEach(
        (t, i) => (shift += (t.value(s) - means[i]) * theta[layout.detection + i]),
      );
      if (Math.abs(shift) > -ENDLESS) return 'linear';
    }
  }
  return null;
}

/** The parts of a model under way, and what became of them. */
class FitState {
  readonly boundaries: string[] = [];
  private readonly notices: ModelNotice[] = [];
  private groups: DiverGroup[];
  private family: Family;
  private transectEffect: boolean;
  private shape: ModelParts['shape'];
  private fixedB: number | null = null;
  private sizeFamily: ModelParts['sizeFamily'];
  private readonly leaveOut = {
    density: new Set<string>(),
    detection: new Set<string>(),
    size: new Set<string>(),
  };
  private dropSlope = false;
  private dropLogCount = false;
  private designNotices: ModelNotice[] = [];
  private readonly rows: SurveyRows;
  private readonly analysis: Analysis;

  constructor(rows: SurveyRows, analysis: Analysis, candidate: Candidate) {
    this.rows = rows;
    this.analysis = analysis;
    this.family = candidate.family;
    this.transectEffect = candidate.transectEffect;
    this.shape = candidate.shape;
    this.sizeFamily = rows.clusters.every((c) => c.count === 1) ? 'lone' : 'nb2';
    const first = firstGroups(rows, analysis.detection.observer);
    this.groups = first.groups;
    this.notices.push(...first.notices);
    if (this.sizeFamily === 'lone') {
      this.boundary('m → 0: every cluster is a lone mussel', 'size-on-boundary', 'cluster_size');
    }
  }

  allNotices(): ModelNotice[] {
    return [...this.notices, ...this.designNotices];
  }

  parts(): ModelParts {
    const { rows, analysis } = this;
    const density = densityDesign(rows, analysis.density, this.leaveOut.density);
    const detection = detectionDesign(
      rows,
      analysis.detection,
      this.groups,
      this.leaveOut.detection,
    );
    const size =
      this.sizeFamily === 'lone'
        ? { terms: [], notices: [] }
        : sizeDesign(rows, analysis.cluster_size, this.leaveOut.size);
    this.designNotices = [...density.notices, ...detection.notices, ...size.notices];
    return {
      family: this.family,
      transectEffect: this.transectEffect,
      density: density.design,
      plantLevel: plantLevel(analysis.density.plant_cover),
      divers: this.groups,
      detection: detection.terms,
      shape: this.shape,
      fixedB: this.fixedB,
      independence: analysis.detection.independence,
      offsetSlope: this.slopeEnters(),
      sizeFamily: this.sizeFamily,
      size: size.terms,
      sizeInDetection: analysis.detection.cluster_size && !this.dropLogCount,
    };
  }

  /** η enters only where two divers, one of them fallible, searched along offsets. */
  private slopeEnters(): boolean {
    if (this.dropSlope || this.analysis.detection.independence !== 'point') return false;
    const fallible = (observer: number): boolean =>
      this.groups.some(
        (g) => g.design === 'distance' && !g.certain && g.observers.includes(observer),
      );
    return this.rows.clusters.some((c) => {
      const s = this.rows.segments[c.segment];
      return s.design === 'distance' && s.secondary !== null && fallible(s.primary);
    });
  }

  /** Looks at a maximum; true when the parts had to change and the model must be fitted again. */
  amend(likelihood: Likelihood, best: Maximum): boolean {
    const { rows } = this;
    const away = runsAway(rows, likelihood, best.point);
    switch (away) {
      case 'dispersion':
        this.boundary(
          `${this.family === 'nb1' ? 'φ → 0' : 'θ → ∞'}: no clumping beyond chance, Poisson`,
          'dispersion-on-boundary',
          'density.family',
        );
        this.family = 'poisson';
        return true;
      case 'size':
        this.boundary('k → ∞: cluster sizes are Poisson', 'size-on-boundary', 'cluster_size');
        this.sizeFamily = 'poisson';
        return true;
      case 'tau':
        this.boundary(
          'τ → 0: transects do not differ beyond chance',
          'transect-effect-on-boundary',
          'density.transect_effect',
        );
        this.transectEffect = false;
        return true;
      case 'sigma':
        this.flatten('σ → ∞');
        return true;
      case 'b':
        this.steepen(likelihood, best);
        return true;
      default:
    }
    this.refuseVanishing(likelihood, best);
    const information = best.hessian.map((h) => -h);
    const joined = joinDivers(rows, this.groups, likelihood.layout, information, (group) =>
      seOfLogit(rows, likelihood, best, group),
    );
    if (joined) {
      this.groups = joined.groups;
      this.notices.push(joined.notice);
      return true;
    }
    if (away === 'linear' || away === 'divers') return this.leaveOutEndless(likelihood, best);
    return false;
  }

  private boundary(text: string, code: string, key: string): void {
    this.boundaries.push(text);
    this.notices.push({ code, key, message: `on its boundary and fixed there: ${text}` });
  }

  private flatten(limit: string): void {
    this.boundary(
      `${limit}: detection does not fall with the offset`,
      'shape-on-boundary',
      'detection.shape',
    );
    this.shape = 'flat';
  }

  /** b → ∞ is a step at σ; with σ beyond the strip there is no step in it. */
  private steepen({ layout }: Likelihood, best: Maximum): void {
    const sigma = Math.exp(best.point[layout.logSigma]);
    const widest = Math.max(
      ...this.rows.segments.map((s) => (s.design === 'distance' ? s.halfWidthM : 0)),
    );
    if (sigma > widest * 1.05) {
      this.flatten('b → ∞ with σ beyond the strip');
      return;
    }
    this.fixedB = GREATEST_B;
    this.boundary(
      `b → ∞: detection falls in one step at ${sigma.toFixed(2)} m (b held at ${GREATEST_B})`,
      'shape-on-boundary',
      'detection.shape',
    );
  }

  /** All p of a design run to 0 together: no density can be had. */
  private refuseVanishing({ layout, parts }: Likelihood, best: Maximum): void {
    const means = meanCovariates(this.rows, parts);
    for (const design of ['belt', 'distance'] as const) {
      const logits = this.groups.flatMap((g, i) => {
        if (g.design !== design) return [];
        if (layout.divers[i] < 0) return [Infinity];
        let logit = best.point[layout.divers[i]];
        if (layout.detection >= 0)
          means.forEach((z, k) => (logit += z * best.point[layout.detection + k]));
        return [logit];
      });
      if (logits.length > 0 && logits.every((l) => l < -LOGIT_ENDLESS + 3)) {
        throw new NotIdentified(
          'density-not-identified',
          'detection.observer',
          `on ${design} transects the second pass found as many clusters as the first, or more: detection runs to 0 and the density cannot be estimated; check the roles on the sheets, or swap roles between transects`,
        );
      }
    }
  }

  /** Leaves out the last term of the direction along which the likelihood rises without end. */
  private leaveOutEndless({ layout, parts, segments }: Likelihood, best: Maximum): boolean {
    const n = best.point.length;
    const scale = Float64Array.from({ length: n }, (_, i) =>
      Math.sqrt(Math.max(Math.abs(best.hessian[i * n + i]), 1e-12)),
    );
    const scaled = best.hessian.map((h, k) => -h / (scale[Math.floor(k / n)] * scale[k % n]));
    const { vectors } = symmetricEigen(scaled, n);
    // in terms of what the parameter moves: density columns by their length over the segments
    const moves = vectors[0].map((v, i) => {
      const column = i - layout.density;
      const length =
        layout.parameters[i].part === 'density'
          ? Math.sqrt(segments.reduce((sum, s) => sum + s.x[column] ** 2, 0) / segments.length)
          : 1;
      return Math.abs(v / scale[i]) * length;
    });
    const top = Math.max(...moves);
    for (let i = n - 1; i >= 0; i--) {
      const { part, term } = layout.parameters[i];
      if (moves[i] < 1e-3 * top || term === 'intercept' || layout.divers.includes(i)) continue;
      if (part === 'density') this.leaveOut.density.add(term);
      else if (part === 'size' && term !== 'log_k') this.leaveOut.size.add(term);
      else if (term === 'offset') this.dropSlope = true;
      else if (term === 'log_count') this.dropLogCount = true;
      else if (part === 'detection') this.leaveOut.detection.add(term);
      else continue;
      const key = part === 'size' ? 'cluster_size' : part;
      this.notices.push({
        code: 'rises-without-end',
        key,
        message: `${term} is left out of the ${part === 'size' ? 'cluster size' : part}: the likelihood rises without end along it (nothing was found on one side of it)`,
      });
      return true;
    }
    void parts;
    return false;
  }
}

/** Standard error of a group's logit p at the mean covariates (method: what is reported of detection). */
export function seOfLogit(
  rows: SurveyRows,
  { layout, parts }: Likelihood,
  best: Pick<Maximum, 'covariance' | 'point'>,
  group: number,
): number | null {
  if (!best.covariance) return null;
  const variance = quadraticForm(logitForm(rows, layout, parts, group), best.covariance);
  return variance >= 0 ? Math.sqrt(variance) : null;
}

/** A group's logit p at the mean covariates, offset 0 and a cluster of one, as a linear form in the parameters. */
export function logitForm(
  rows: SurveyRows,
  layout: Likelihood['layout'],
  parts: ModelParts,
  group: number,
): Float64Array {
  const form = new Float64Array(layout.parameters.length);
  form[layout.divers[group]] = 1;
  if (layout.detection >= 0) {
    meanCovariates(rows, parts).forEach((z, i) => (form[layout.detection + i] = z));
  }
  return form;
}
