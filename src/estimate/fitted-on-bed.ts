/** From segments to the models on their bed: what an estimate and a plan begin with, and where both are refused. */

import {
  type Availability,
  availabilityOf,
  bedTotal,
  type Choice,
  chooseModel,
  condense,
  DensityNotIdentified,
  type Fit,
  LEAST_MEAN_P,
  meanDetection,
  NotEstimable,
  type SurveyRows,
  withAvailability,
} from '../../models/index.ts';
import type { Finding, Progress } from '../../shared/findings.ts';
import { bedAlong } from './bed-along.ts';
import { asError } from './notices.ts';
import type { Again, EstimateInput } from './records.ts';
import { mappedHabitats, surveyRows } from './rows.ts';

/** A lake has no more than so many times the density of what was searched on it. */
const GREATEST_RATIO = 1000;

/**
 * The models and the bed that totals are summed over, and no more: no map of densities, no strata, no checks. Refused where an estimate is.
 * @returns null without a lake or a detection
 */
export function fittedOnBed(
  input: EstimateInput,
  progress: Progress = () => {},
): { ok: true; again: Again | null } | { ok: false; findings: Finding[] } {
  const { survey, segments, analysis, shore } = input;
  const rows = surveyRows(survey, segments, analysis, shore);
  if (rows.clusters.length === 0 || input.bed === null) return { ok: true, again: null };
  const mapped = input.bed;
  return unlessRefused(input, () => {
    const choice = chooseModel(rows, analysis, (done, of) => progress('fit', done / of));
    const { fits, members } = ofAllClusters(choice, (fit) =>
      availabilityOf(analysis.detection, rows, fit),
    );
    const bed = isAlongShore(choice) && shore !== null ? bedAlong(mapped, shore) : mapped;
    const meanP = meanDetection(rows, choice.fit).value;
    refuseVanishing(meanP);
    const habitats = mappedHabitats(bed.habitats, analysis);
    const total = bedTotal(rows, members, habitats, condense(bed.pieces));
    if (total.areaM2 === 0) return { ok: true, again: null };
    refuseRunaway(total.areaM2, total.clusters, total.mussels, rows, meanP);
    return { ok: true, again: { rows, analysis, fits, members, bed } };
  });
}

/** A survey that cannot be estimated has an error that says why. */
export function unlessRefused<T>(
  { findings }: EstimateInput,
  work: () => T,
): T | { ok: false; findings: Finding[] } {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof NotEstimable)) throw error;
    return { ok: false, findings: [...findings, asError(error.reason)] };
  }
}

/** Whether some model has density depend on the place along the shore. */
export const isAlongShore = ({ fits }: Choice): boolean =>
  fits.some((f) => f.candidate.shorePairs !== undefined);

/** The fits that numbers of the lake come from; the best one stays as it is, for detection, coefficients and checks. */
export function ofAllClusters(
  choice: Choice,
  availableIn: (fit: Fit) => Availability | null,
): Choice {
  const all = new Map(
    choice.fits.map((fit) => {
      const availability = availableIn(fit);
      return [fit, availability === null ? fit : withAvailability(fit, availability)];
    }),
  );
  return {
    ...choice,
    fits: choice.fits.map((f) => all.get(f) ?? f),
    members: choice.members.map((m) => ({ ...m, fit: all.get(m.fit) ?? m.fit })),
  };
}

/** Throws where a number would be the detection's alone. */
export function refuseVanishing(meanP: number): void {
  if (meanP >= LEAST_MEAN_P) return;
  throw new DensityNotIdentified({
    code: 'density-not-identified',
    cause: 'detection-too-low',
    meanP,
  });
}

/** Throws where the model has no hold on what it is carried to: its density on the bed is beyond all that was detected. */
export function refuseRunaway(
  areaM2: number,
  clusters: number,
  mussels: number,
  rows: SurveyRows,
  meanP: number,
): void {
  const searchedM2 = rows.segments.reduce((sum, s) => sum + s.areaM2, 0);
  const most = (GREATEST_RATIO * rows.clusters.length * areaM2) / (searchedM2 * meanP);
  if (clusters <= most && Number.isFinite(mussels)) return;
  throw new DensityNotIdentified({
    code: 'density-not-identified',
    cause: 'density-too-high',
    times: GREATEST_RATIO,
  });
}
