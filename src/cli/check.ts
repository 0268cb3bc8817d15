/** shoalwise check DIR…: reads and judges, writes nothing. */

import type { Finding } from '../../shared/findings.ts';
import { counted } from '../../shared/glossary.ts';
import { type Repair, repairsFor } from '../../shared/repairs.ts';
import { formatCount } from '../../shared/units.ts';
import { type Core, EXIT, type Terminal, worst } from './core.ts';
import { eachFolder, type Visit } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';

export interface CheckAsked {
  folders: string[];
  json: boolean;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** An error or notice with the repairs that stand below it; what is drawn of them is left to the page. */
type Told = Finding & { repairs: Omit<Repair, 'picture'>[] };

/** Errors and notices to standard error, a verdict a folder (or, with `json`, all of them) to standard output. */
export async function check(core: Core, terminal: Terminal, asked: CheckAsked): Promise<number> {
  const visits = await eachFolder<Told[]>(
    asked.folders,
    terminal,
    async (folder, { name, prefix, progress }) => {
      const { findings, ok, repairs } = await core.judge(folder, progress.report);
      progress.clear();
      const proposed = await repairs();
      printFindings(findings, terminal, prefix, asked.listAll, proposed);
      if (!asked.json) terminal.out(`${name}: ${verdict(findings, ok)}\n`);
      return {
        code: ok ? EXIT.done : EXIT.data,
        value: findings.map((finding) => withRepairs(finding, proposed)),
      };
    },
  );
  if (asked.json) terminal.out(asJson(visits));
  return worst(visits.map((v) => v.code));
}

export function verdict(findings: Finding[], ok: boolean): string {
  const errors = findings.filter((f) => f.severity === 'error').length;
  const notices = findings.length - errors;
  const numbers = `${written(errors, 'error')}, ${written(notices, 'notice')}`;
  return ok ? `can be estimated (${numbers})` : `cannot be estimated yet (${numbers})`;
}

function written(n: number, id: 'error' | 'notice'): string {
  return counted(n, n === 0 ? 'no' : formatCount(n), id);
}

function withRepairs(finding: Finding, repairs: readonly Repair[]): Told {
  return {
    ...finding,
    repairs: repairsFor(finding, repairs).map(({ picture: _, ...repair }) => repair),
  };
}

/** The findings of one folder as a list; of several as a list of folders, null where a folder could not be read. */
function asJson(visits: Visit<Told[]>[]): string {
  const [only] = visits;
  const value =
    visits.length === 1
      ? (only!.value ?? [])
      : visits.map((v) => ({ folder: v.path, findings: v.value }));
  return `${JSON.stringify(value, null, 2)}\n`;
}
