/** The bootstrap of an estimate: its task, and its interval beside the other. */

import { bootstrapTask, type Replicate, summariseBootstrap } from '../../models/bootstrap.ts';
import type { Task } from '../../models/tasks.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Finding } from '../../shared/findings.ts';
import type { Again } from './index.ts';
import { asNotice, asWarning } from './notices.ts';
import { mappedHabitats } from './rows.ts';

/** @param reselect each replicate chooses among all models again, not only the chosen one */
export function bootstrapOf(
  { rows, analysis, fits, bed }: Again,
  reselect: boolean,
): Extract<Task, { kind: 'bootstrap' }> {
  const models = reselect ? fits : fits.slice(0, 1);
  const habitats = mappedHabitats(bed.habitats, analysis);
  return { kind: 'bootstrap', input: bootstrapTask(rows, analysis, models, habitats, bed.pieces) };
}

/** The estimate with the bootstrap's intervals, and its notices. */
export function withBootstrap(
  estimate: Estimate,
  results: (Replicate | null)[],
  level: number,
): { estimate: Estimate; findings: Finding[] } {
  const { notices, ...summary } = summariseBootstrap(results, level);
  const findings = notices.map(asNotice);
  return {
    estimate: {
      ...estimate,
      bootstrap: summary,
      warnings: [...estimate.warnings, ...findings.map(asWarning)],
    },
    findings,
  };
}
