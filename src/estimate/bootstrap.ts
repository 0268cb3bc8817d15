/** The bootstrap of an estimate: its interval beside the other. */

import { bootstrapTask, runHere, summariseBootstrap, type Task } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import { asNotice, asWarning } from './notices.ts';
import type { Again, Estimated, EstimateOptions } from './records.ts';
import { mappedHabitats } from './rows.ts';

/** The estimate with the bootstrap's intervals and its notices; as it was where none is asked for or none is possible. */
export async function withBootstrap(
  made: Estimated,
  analysis: Analysis,
  options: EstimateOptions,
): Promise<Estimated> {
  const { progress, runMany = runHere, reselect = false } = options;
  const replicates = options.replicates ?? analysis.bootstrap.replicates;
  if (made.again === null || replicates === 0) return made;
  const task = taskOf(made.again, reselect);
  const draws = await runMany(task, replicates, (share) => progress?.('bootstrap', share));
  const { notices, ...bootstrap } = summariseBootstrap(draws, analysis.interval, {
    detections: made.again.rows.clusters.length,
    clusters: made.estimate.abundance?.clusters.estimate ?? null,
    mussels: made.estimate.abundance?.mussels?.estimate ?? null,
  });
  const findings = notices.map(asNotice);
  const warnings = [...made.estimate.warnings, ...findings.map(asWarning)];
  return {
    ...made,
    estimate: { ...made.estimate, bootstrap, warnings },
    findings: [...made.findings, ...findings],
  };
}

/** @param reselect each replicate compares all models again, not only those of the average */
function taskOf(
  { rows, analysis, fits, members, bed }: Again,
  reselect: boolean,
): Extract<Task, { kind: 'bootstrap' }> {
  const models = reselect ? fits : members.map((m) => m.fit);
  const habitats = mappedHabitats(bed.habitats, analysis);
  return { kind: 'bootstrap', input: bootstrapTask(rows, analysis, models, habitats, bed.pieces) };
}
