/** A rehearsal of a survey: from its fitted model, or from a known truth. */

import { fittedLogDensity, truthOf } from '../../models/rehearse.ts';
import type { Task } from '../../models/tasks.ts';
import type { Truth } from '../../models/truth.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Again } from './index.ts';
import { mappedHabitats } from './rows.ts';

/** A truth file: the parameters and what they amount to on the surveyed bed. */
export type KnownTruth = Truth & { clusters: number; mussels: number };

export interface Rehearsal {
  task: Extract<Task, { kind: 'rehearsal' }>;
  totals: { clusters: number; mussels: number };
}

/** @param truth null = simulate from the fitted model; its totals are then those of the estimate */
export function rehearsalOf(
  { rows, analysis, fits, bed }: Again,
  estimate: Estimate,
  truth: KnownTruth | null,
): Rehearsal | null {
  const fitted = estimate.abundance;
  if (!fitted?.mussels) return null;
  return {
    task: {
      kind: 'rehearsal',
      input: {
        rows: { ...rows, clusters: [] },
        analysis,
        truth: truth ?? truthOf(rows, fits[0]),
        logDensity: truth ? null : fittedLogDensity(rows, fits[0]),
        habitats: mappedHabitats(bed.habitats, analysis),
        pieces: bed.pieces,
        seed: analysis.seed,
      },
    },
    totals: truth
      ? { clusters: truth.clusters, mussels: truth.mussels }
      : { clusters: fitted.clusters.estimate, mussels: fitted.mussels.estimate },
  };
}
