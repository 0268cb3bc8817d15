/** A simulation study of a survey's design: from its fitted model, or from a known truth. */

import {
  fittedLogDensity,
  type RehearsalInput,
  type RehearsalSummary,
  runHere,
  summariseRehearsal,
  type Truth,
  truthOf,
} from '../../models/index.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { errorAt, type Finding } from '../../shared/findings.ts';
import type { Again, EstimateOptions } from './records.ts';
import { mappedHabitats } from './rows.ts';

/** A truth file: the parameters and what they amount to on the surveyed bed. */
export type KnownTruth = Truth & { clusters: number; mussels: number };

export type Rehearsal =
  /** `level`: of the intervals, 0.95 for 95 % */
  { ok: true; summary: RehearsalSummary; level: number } | { ok: false; findings: Finding[] };

/**
 * What this design can deliver on this lake: the survey simulated again and again and estimated each time.
 * @param again null when there was no lake or no detection: a finding then says what is missing
 * @param truth parameters to simulate from; null = the fitted model, its totals those of the estimate
 */
export async function rehearse(
  again: Again | null,
  { abundance }: Pick<Estimate, 'abundance'>,
  truth: KnownTruth | null,
  surveys: number,
  { progress, runMany = runHere }: EstimateOptions,
): Promise<Rehearsal> {
  const mussels = abundance?.mussels;
  if (again === null || !mussels) return { ok: false, findings: [NOTHING_TO_SIMULATE] };
  const input = inputOf(again, truth);
  const done = await runMany({ kind: 'rehearsal', input }, surveys, (share) =>
    progress?.('rehearsal', share),
  );
  const totals = truth ?? {
    clusters: abundance.clusters.estimate,
    mussels: mussels.estimate,
  };
  return {
    ok: true,
    summary: summariseRehearsal(done, totals),
    level: again.analysis.interval,
  };
}

const NOTHING_TO_SIMULATE = errorAt(
  { table: 'detections.csv' },
  'no-abundance',
  'a simulation study needs an abundance to simulate: outline, substrate and depth of the lake, and detections',
);

function inputOf({ rows, analysis, fits, bed }: Again, truth: KnownTruth | null): RehearsalInput {
  const [fit] = fits;
  if (fit === undefined)
    throw new RangeError('got an estimate without a fit, expected at least one');
  return {
    rows: { ...rows, clusters: [] },
    analysis,
    truth: truth ?? truthOf(rows, fit),
    logDensity: truth ? null : fittedLogDensity(rows, fit),
    habitats: mappedHabitats(bed.habitats, analysis),
    pieces: bed.pieces,
    seed: analysis.seed,
  };
}
