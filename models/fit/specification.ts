/**
 * A model under way: its parts, and what the method makes of a maximum that lies on a boundary, cannot tell divers
 * apart or runs off without end. Each of these changes the parts; the caller fits again.
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { Family } from '../../shared/estimate.ts';
import { extent } from '../../shared/extent.ts';
import {
  BOUNDARY_CODES,
  type ModelNotice,
  type SearchBoundary,
} from '../../shared/model-notices.ts';
import type { SurveyRows } from '../data.ts';
import { type DensityChoices, densityDesign, plantLevel } from '../density/design.ts';
import { FAMILIES } from '../density/families.ts';
import { detectionDesign, sizeDesign } from '../detection/design.ts';
import { firstGroups, namesOf, whyNoDetection } from '../detection/divers.ts';
import { joinedAs } from '../detection/sharing.ts';
import { firstSizeFamily, SIZE_FAMILIES } from '../detection/size.ts';
import { DensityNotIdentified } from '../errors.ts';
import type { Likelihood } from '../likelihood.ts';
import type { Maximum } from '../numbers/newton.ts';
import type { DiverGroup, ModelParts } from '../parts.ts';
import { USUAL_NODES } from '../transect-effect.ts';
import { boundaryReached, designWithoutDetection, GREATEST_B } from './boundaries.ts';
import type { Candidate } from './fitted-model.ts';
import { isAgainstRatioTest, joinedBy } from './join.ts';
import { groupOnBoundary } from './observers-on-boundary.ts';
import { separatingDirection } from './separation.ts';

/** With b at its greatest and σ this many times beyond the strip, g is 1 within it to 3e-22. */
const BEYOND_STRIP = 1.05;
/** Share of the greatest move along a direction from which a term takes part in it. */
const TAKES_PART = 1e-3;

/** @throws RangeError when neither the analysis nor the candidate states the form of depth */
function withStatedForms(
  { shore: _, ...density }: Analysis['density'],
  { depth: stated, shorePairs = 0, treatedArea = false }: Candidate,
): DensityChoices {
  if (stated)
    return { ...density, depth: stated.form, depth_df: stated.df, shorePairs, treatedArea };
  const { depth } = density;
  if (depth === 'auto')
    throw new RangeError('got depth auto without a form, expected a candidate that states one');
  return { ...density, depth, shorePairs, treatedArea };
}

/** What was made last, and what it was made of: a change of one part leaves the other parts as they are. */
interface Kept<T> {
  of: readonly unknown[];
  made: T | null;
}

function kept<T>(last: Kept<T>, of: readonly unknown[], make: () => T): T {
  if (last.made === null || of.some((x, i) => x !== last.of[i])) last.made = make();
  last.of = of;
  return last.made;
}

/** The parts of a model under way, and what became of them. */
export class Specification {
  private notices: ModelNotice[] = [];
  private groups: DiverGroup[];
  private readonly isSharingSettled: boolean;
  private family: Family;
  private transectEffect: boolean;
  private shape: ModelParts['shape'];
  private fixedB: number | null = null;
  private sizeFamily: ModelParts['sizeFamily'];
  private readonly density: DensityChoices;
  private readonly leaveOut = {
    density: new Set<string>(),
    detection: new Set<string>(),
    size: new Set<string>(),
  };
  private dropSlope = false;
  private dropLogCount = false;
  private designNotices: ModelNotice[] = [];
  private readonly densityMade: Kept<ReturnType<typeof densityDesign>> = { of: [], made: null };
  private readonly detectionMade: Kept<ReturnType<typeof detectionDesign>> = { of: [], made: null };
  private readonly rows: SurveyRows;
  private readonly analysis: Analysis;

  constructor(rows: SurveyRows, analysis: Analysis, candidate: Candidate) {
    this.rows = rows;
    this.analysis = analysis;
    this.family = candidate.family;
    this.transectEffect = candidate.transectEffect;
    this.shape = candidate.shape;
    this.density = withStatedForms(analysis.density, candidate);
    this.sizeFamily = firstSizeFamily(rows.clusters);
    const first = firstGroups(rows, analysis.detection.observer);
    const { sharing } = candidate;
    this.isSharingSettled = sharing !== undefined;
    const joined = joinedAs(rows, first.groups, sharing ?? []);
    this.groups = joined.groups;
    this.notices = [...first.notices, ...joined.notices];
    if (this.sizeFamily === 'single') this.boundary({ parameter: 'm', limit: 0 });
  }

  allNotices(): ModelNotice[] {
    return [...this.notices, ...this.designNotices];
  }

  parts(): ModelParts {
    const { rows, analysis, groups, leaveOut } = this;
    const density = kept(this.densityMade, [leaveOut.density.size], () =>
      densityDesign(rows, this.density, leaveOut.density),
    );
    const detection = kept(this.detectionMade, [groups, leaveOut.detection.size], () =>
      detectionDesign(rows, analysis.detection, groups, leaveOut.detection),
    );
    const size =
      this.sizeFamily === 'single'
        ? { terms: [], notices: [] }
        : sizeDesign(rows, analysis.cluster_size, this.leaveOut.size);
    this.designNotices = [...density.notices, ...detection.notices, ...size.notices];
    return {
      family: this.family,
      transectEffect: this.transectEffect,
      nodes: USUAL_NODES,
      density: density.design,
      plantLevel: plantLevel(analysis.density.plant_cover),
      divers: this.groups,
      detection: detection.terms,
      shape: this.shape,
      fixedB: this.fixedB,
      independence: analysis.detection.independence,
      distanceClasses: analysis.detection.distance_classes,
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

  /**
   * Looks at a maximum: how the parts had to change, so that the model must be fitted again; null when it stands.
   * `one-fixed`: a single parameter ended on its boundary, the others keep their values.
   */
  respecify(likelihood: Likelihood, best: Maximum): 'one-fixed' | 'other-terms' | null {
    const { rows } = this;
    const reached = boundaryReached(rows, likelihood, best.point);
    switch (reached) {
      case 'dispersion': {
        const { dispersion } = FAMILIES[this.family];
        if (!dispersion) throw new Error(`${this.family} has no dispersion to be on its boundary`);
        this.boundary(dispersion.boundary);
        this.family = dispersion.becomes;
        return 'one-fixed';
      }
      case 'k': {
        const { k } = SIZE_FAMILIES[this.sizeFamily];
        if (!k) throw new Error(`cluster sizes of family ${this.sizeFamily} have no k`);
        this.boundary(k.boundary);
        this.sizeFamily = k.becomes;
        return 'one-fixed';
      }
      case 'tau':
        this.boundary({ parameter: 'tau', limit: 0 });
        this.transectEffect = false;
        return 'one-fixed';
      case 'sigma':
        this.flatten(this.fixedB === null ? 'sigma' : 'b');
        return 'one-fixed';
      case 'b':
        this.steepen(likelihood, best);
        return 'one-fixed';
      default:
    }
    const direction = separatingDirection(rows, likelihood, best, best.point);
    if (direction && this.leaveOutLast(likelihood, direction)) return 'other-terms';
    this.refuseVanishing(likelihood, best);
    if (!this.isSharingSettled && this.join(likelihood, best)) return 'other-terms';
    const held = groupOnBoundary(rows, this.groups, likelihood, best);
    if (held === null) return null;
    this.hold(held.group, held.limit);
    return 'other-terms';
  }

  /** Observers whom the fit cannot tell apart share one p, unless the likelihood falls too far by it. */
  private join(likelihood: Likelihood, best: Maximum): boolean {
    const { groups } = this;
    const joined = joinedBy(this.rows, groups, likelihood, best);
    if (joined === null) return false;
    this.groups = joined.groups;
    const lost = groups.length - joined.groups.length;
    if (isAgainstRatioTest(this.rows, this.parts(), lost, likelihood, best)) {
      this.groups = groups;
      return false;
    }
    this.notices.push(joined.notice);
    return true;
  }

  /** What ended on its boundary, in the order in which it did. */
  boundaries(): SearchBoundary[] {
    return this.notices.flatMap((n) => ('boundary' in n ? [n.boundary] : []));
  }

  private boundary(boundary: SearchBoundary): void {
    this.notices.push({ code: BOUNDARY_CODES[boundary.parameter], boundary });
  }

  /** Detection no longer falls within the strip, because σ or b ran off; a step found before is none any more. */
  private flatten(parameter: 'sigma' | 'b'): void {
    this.notices = this.notices.filter((n) => n.code !== 'shape-on-boundary');
    this.fixedB = null;
    this.boundary(
      parameter === 'sigma'
        ? { parameter, limit: 'infinity' }
        : { parameter, limit: 'infinity', step: null },
    );
    this.shape = 'flat';
  }

  /** b → ∞ is a step at σ; with σ beyond the strip there is no step in it. */
  private steepen({ layout, greatestHalfWidthM }: Likelihood, best: Maximum): void {
    const sigma = Math.exp(best.point[layout.logSigma]);
    if (sigma > greatestHalfWidthM * BEYOND_STRIP) {
      this.flatten('b');
      return;
    }
    this.fixedB = GREATEST_B;
    const step = { atM: sigma, heldAt: GREATEST_B };
    this.boundary({ parameter: 'b', limit: 'infinity', step });
  }

  /** All p of a design run to 0 together: no density can be had. */
  private refuseVanishing(likelihood: Likelihood, best: Maximum): void {
    const design = designWithoutDetection(this.rows, likelihood, best.point);
    if (design === null) return;
    const swap = whyNoDetection(this.rows, design);
    throw new DensityNotIdentified({
      code: 'density-not-identified',
      cause: 'detection-vanishes',
      design,
      swap,
    });
  }

  /** Leaves out the last term of the direction along which the likelihood rises without end. */
  private leaveOutLast({ layout }: Likelihood, moves: Float64Array): boolean {
    const [, top] = extent(moves);
    for (let i = moves.length - 1; i >= 0; i--) {
      const { part, term, kind } = layout.parameters[i];
      if (moves[i] < TAKES_PART * top || kind === 'intercept' || layout.divers.includes(i))
        continue;
      if (part !== 'density' && part !== 'detection' && part !== 'size') continue;
      if (kind === 'k') continue;
      if (i === layout.slope) this.dropSlope = true;
      else if (i === layout.logCount) this.dropLogCount = true;
      else this.leaveOut[part].add(term);
      this.notices.push({ code: 'rises-without-end', part, term });
      return true;
    }
    return false;
  }

  private hold(group: number, limit: 0 | 1): void {
    const { observers, design } = this.groups[group];
    const held = limit === 1 ? { certain: true } : { never: true };
    this.groups = this.groups.map((g, i) => (i === group ? { ...g, ...held } : g));
    this.boundary({ parameter: 'p', limit, observers: namesOf(this.rows, observers), design });
  }
}
