/**
 * Treated against untreated, before and after (METHOD.md: Two surveys of one lake): every model of a season again, with a
 * factor of its own for the treated area.
 */

import type { Analysis } from '../../shared/analysis.ts';
import { withAvailability } from '../availability.ts';
import type { SurveyRows } from '../data.ts';
import { TREATED_TERM } from '../density/design.ts';
import { NotEstimable } from '../errors.ts';
import type { Member } from '../fit/choice.ts';
import { fitModel } from '../fit/fit-model.ts';
import { type Fit, knownValues } from '../fit/fitted-model.ts';
import { availabilityOf } from '../planted.ts';
import type { AreaTotals } from '../treat/joint.ts';

/** Why a season has no density of its own inside and outside of the treated area. */
export type NotTwoDensities =
  | { cause: 'no-transect-inside' }
  | { cause: 'no-transect-outside' }
  | { cause: 'nothing-detected-inside' }
  | { cause: 'nothing-detected-outside' }
  /** the factor repeats what substrates and depths say already, or no maximum was found */
  | { cause: 'not-told-apart' };

export type WithTreatedArea = { ok: true; members: Member[] } | { ok: false; why: NotTwoDensities };

/**
 * The models of an average with the factor; their weights stay.
 * @param rows with `treated` on every segment
 */
export function withTreatedArea(
  rows: SurveyRows,
  analysis: Analysis,
  members: readonly Member[],
): WithTreatedArea {
  const missing = whyNot(rows);
  if (missing !== null) return { ok: false, why: { cause: missing } };
  const refitted: Member[] = [];
  for (const { fit, weight } of members) {
    try {
      const warm = knownValues(fit.likelihood, fit.estimates);
      const again = fitModel(rows, analysis, { ...fit.candidate, treatedArea: true }, warm);
      if (again.converged && again.parts.density.terms.some((t) => t.name === TREATED_TERM))
        refitted.push({ fit: ofAll(rows, analysis, again), weight });
    } catch (error) {
      if (!(error instanceof NotEstimable)) throw error;
    }
  }
  if (refitted.length === 0) return { ok: false, why: { cause: 'not-told-apart' } };
  return { ok: true, members: weighed(refitted) };
}

/** The models of an average by what was searched outside of the treated area alone; empty where none has a maximum. */
export function outsideAlone(
  rows: SurveyRows,
  analysis: Analysis,
  members: readonly Member[],
): { rows: SurveyRows; members: Member[] } {
  const places = new Map<number, number>();
  rows.segments.forEach((s, i) => {
    if (s.treated !== true) places.set(i, places.size);
  });
  const outside: SurveyRows = {
    ...rows,
    segments: rows.segments.filter((_, i) => places.has(i)),
    clusters: rows.clusters.flatMap((c) => {
      const segment = places.get(c.segment);
      return segment === undefined ? [] : [{ ...c, segment }];
    }),
  };
  const refitted: Member[] = [];
  for (const { fit, weight } of members) {
    try {
      const again = fitModel(
        outside,
        analysis,
        fit.candidate,
        knownValues(fit.likelihood, fit.estimates),
      );
      if (again.converged) refitted.push({ fit: ofAll(outside, analysis, again), weight });
    } catch (error) {
      if (!(error instanceof NotEstimable)) throw error;
    }
  }
  return { rows: outside, members: weighed(refitted) };
}

/** With the density of all clusters, as the members of the average have it. */
function ofAll(rows: SurveyRows, analysis: Analysis, fit: Fit): Fit {
  const availability = availabilityOf(analysis.detection, rows, fit);
  return availability === null ? fit : withAvailability(fit, availability);
}

function weighed(members: readonly Member[]): Member[] {
  const sum = members.reduce((total, m) => total + m.weight, 0);
  return members.map((m) => ({ ...m, weight: m.weight / sum }));
}

function whyNot(rows: SurveyRows): NotTwoDensities['cause'] | null {
  const searched = { inside: false, outside: false };
  const found = { inside: false, outside: false };
  const side = (segment: number) => (rows.segments[segment].treated ? 'inside' : 'outside');
  rows.segments.forEach((_, i) => {
    searched[side(i)] = true;
  });
  for (const { segment } of rows.clusters) found[side(segment)] = true;
  if (!searched.inside) return 'no-transect-inside';
  if (!searched.outside) return 'no-transect-outside';
  if (!found.inside) return 'nothing-detected-inside';
  return found.outside ? null : 'nothing-detected-outside';
}

/** Totals under the same models in the same order: the one less the other. */
export function lessTotals(whole: AreaTotals, part: AreaTotals): AreaTotals {
  if (whole.length !== part.length)
    throw new RangeError(`got totals under ${part.length} models, expected ${whole.length}`);
  return whole.map((w, i) => ({
    ...w,
    mussels: w.mussels - part[i].mussels,
    gradient: w.gradient.map((g, k) => g - part[i].gradient[k]),
  }));
}

/** Totals under the same models in the same order, added. */
export function sumOfTotals(one: AreaTotals, other: AreaTotals): AreaTotals {
  const none = one.map((t) => ({
    ...t,
    mussels: 0,
    gradient: new Float64Array(t.gradient.length),
  }));
  return lessTotals(one, lessTotals(none, other));
}
