/** shoalwise rehearse DIR… --surveys N: what this design can deliver on this lake. */

import type { RehearsalSummary, RehearsedQuantity } from '../../models/rehearse.ts';
import { formatDigits } from '../../shared/units.ts';
import type { KnownTruth } from '../pipeline.ts';
import { type Core, EXIT, type Folder, InputError, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { readTruth } from './folder.ts';
import { pool } from './pool.ts';
import { columns, wrap } from './text.ts';

export interface RehearseAsked {
  folders: string[];
  surveys: number;
  fromTruth: boolean;
  threads: number | null;
  json: boolean;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** A table a folder to standard output (or, with `json`, the summaries). */
export async function rehearse(
  core: Core,
  terminal: Terminal,
  asked: RehearseAsked,
): Promise<number> {
  const visits = await eachFolder<RehearsalSummary>(
    asked.folders,
    terminal,
    async (folder, { index, prefix, progress }) => {
      const truth = asked.fromTruth ? await truthBeside(asked.folders[index]!, folder) : null;
      const done = await core.rehearseSurvey(folder, asked.surveys, truth, {
        progress: progress.report,
        runMany: pool(asked.threads ?? undefined),
      });
      progress.clear();
      if (!done.ok) {
        printFindings(done.findings, terminal, prefix, asked.listAll);
        return { code: EXIT.data, value: null };
      }
      if (!asked.json) terminal.out(rehearsalText(folder.name, done.summary, asked.fromTruth));
      return { code: EXIT.done, value: done.summary };
    },
  );
  if (asked.json) {
    const all = visits.map((v) => ({ folder: v.path, rehearsal: v.value }));
    terminal.out(`${JSON.stringify(all.length === 1 ? all[0]!.rehearsal : all, null, 2)}\n`);
  }
  return worst(visits.map((v) => v.code));
}

async function truthBeside(path: string, folder: Folder): Promise<KnownTruth> {
  const truth = await readTruth(path);
  if (truth === null) {
    throw new InputError(
      `${folder.name}: truth.json is missing (--from-truth simulates from it; leave the option out to simulate from the fitted model)`,
    );
  }
  return truth;
}

function rehearsalText(name: string, s: RehearsalSummary, fromTruth: boolean): string {
  const rows = [['', 'true', 'bias', 'spread', 'reported', 'intervals that hold']];
  const row = (label: string, q: RehearsedQuantity | null): string[] =>
    q === null
      ? [label, '–', '–', '–', '–', '–']
      : [
          label,
          formatDigits(q.truth, 3),
          `${signed(q.bias)} ± ${percent(q.biasSe)}`,
          percent(q.spread),
          percent(q.reported),
          `${percent(q.coverage)} ± ${percent(q.coverageSe)}`,
        ];
  rows.push(row('mussels', s.mussels), row('clusters', s.clusters));
  const source = fromTruth ? 'truth.json' : 'the fitted model';
  const lines = [
    `${name}: ${s.surveys} surveys rehearsed from ${source}, ${formatDigits(s.detections, 3)} clusters found on average`,
    columns(rows, ['left', 'right', 'right', 'right', 'right', 'right'], '  '),
    wrap(
      s.notEstimable === 0
        ? 'Every survey gave a valid estimate.'
        : `${percent(s.notEstimable)} of the surveys gave no valid estimate (${s.reasons.map((r) => `${r.why}: ${r.surveys}`).join(', ')}).`,
      '  ',
    ),
    wrap(
      'Bias: mean of the estimates against the truth. Spread: standard deviation of the estimates; reported: the error that they claim, on average. ± is the error of so many rehearsals.',
      '  ',
    ),
  ];
  return `${lines.join('\n')}\n\n`;
}

function signed(x: number): string {
  return `${x >= 0 ? '+' : '−'}${percent(Math.abs(x))}`;
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
