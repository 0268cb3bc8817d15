/** npm run study: every scenario's surveys simulated and estimated; bias, coverage, what was not estimable, and what checks said. */

import { performance } from 'node:perf_hooks';
import { summariseRehearsal } from '../../../models/rehearse.ts';
import { pool } from '../../../src/cli/pool.ts';
import { printAreas } from './areas.ts';
import { printChecks } from './checks.ts';
import { printPlans } from './plans.ts';
import { prepare, SCENARIOS } from './scenarios.ts';

const SEED = 1;

/** The second argument takes the scenarios that have it in their names; `checks`, `areas` and `plans` take those tables alone. */
export async function main(argv: string[]): Promise<void> {
  const surveys = Number(argv[0] ?? 1000);
  const only = argv[1];
  const say = (text: string): void => void process.stdout.write(`${text}\n`);
  if (only === 'checks') return printChecks(surveys, say);
  if (only === 'areas') return printAreas(surveys, say);
  if (only === 'plans') return printPlans(surveys, say);
  say(`${surveys} surveys a scenario, seed ${SEED}; ± is the simulation error\n`);
  say(
    '| scenario | transects | detections | bias of mussels | observed CV | reported CV | coverage of 95 % | not estimable | seconds |',
  );
  say('| --- | --- | --- | --- | --- | --- | --- | --- | --- |');
  const percent = (x: number, digits = 1): string => `${(100 * x).toFixed(digits)} %`;
  for (const scenario of SCENARIOS) {
    if (only && !scenario.name.includes(only)) continue;
    const begun = performance.now();
    const { input, totals } = prepare(scenario, SEED);
    const results = await pool()({ kind: 'rehearsal', input }, surveys, () => {});
    const s = summariseRehearsal(results, totals);
    const m = s.mussels;
    const cells = m
      ? [
          `${m.bias >= 0 ? '+' : '−'}${percent(Math.abs(m.bias))} ± ${percent(m.biasSe)}`,
          percent(m.spread),
          percent(m.reported),
          `${percent(m.coverage)} ± ${percent(m.coverageSe)}`,
        ]
      : ['–', '–', '–', '–'];
    const why = s.reasons.map((r) => `${r.why} ${r.surveys}`).join(', ');
    say(
      `| ${[scenario.name, scenario.transects, Math.round(s.detections), ...cells, `${percent(s.notEstimable)}${why && ` (${why})`}`, ((performance.now() - begun) / 1000).toFixed(0)].join(' | ')} |`,
    );
  }
  if (!only) printChecks(surveys, say);
}
