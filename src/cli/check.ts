/** shoalwise check DIR…: reads and judges, writes nothing. */

import type { Finding } from '../../shared/findings.ts';
import { type Core, EXIT, type Terminal, worst } from './core.ts';
import { eachFolder, tellFindings, type Visit } from './each-folder.ts';

/** Findings to standard error, a verdict a folder (or, with `json`, the findings) to standard output. */
export async function check(
  core: Core,
  terminal: Terminal,
  asked: { folders: string[]; json: boolean },
): Promise<number> {
  const visits = await eachFolder<Finding[]>(
    asked.folders,
    terminal,
    async (folder, progress, prefix) => {
      const { findings, ok } = await core.judge(folder, progress.report);
      progress.clear();
      tellFindings(findings, terminal, prefix);
      if (!asked.json) terminal.out(`${folder.name}: ${verdict(findings, ok)}\n`);
      return { code: ok ? EXIT.done : EXIT.data, value: findings };
    },
  );
  if (asked.json) terminal.out(asJson(visits));
  return worst(visits.map((v) => v.code));
}

function verdict(findings: Finding[], ok: boolean): string {
  const errors = findings.filter((f) => f.severity === 'error').length;
  const notices = findings.length - errors;
  const counted = `${count(errors, 'error')}, ${count(notices, 'notice')}`;
  return ok ? `can be estimated (${counted})` : `cannot be estimated yet (${counted})`;
}

function count(n: number, noun: string): string {
  return `${n === 0 ? 'no' : n} ${noun}${n === 1 ? '' : 's'}`;
}

/** The findings of one folder as a list; of several as a list of folders, null where a folder could not be read. */
function asJson(visits: Visit<Finding[]>[]): string {
  const [only] = visits;
  const value =
    visits.length === 1
      ? (only!.value ?? [])
      : visits.map((v) => ({ folder: v.path, findings: v.value }));
  return `${JSON.stringify(value, null, 2)}\n`;
}
