/** Errors and notices on standard error: one a line, those of one kind summed up when there are many. */

import { type Finding, formatFinding } from '../../shared/findings.ts';
import { type Repair, repairsFor } from '../../shared/repairs.ts';
import { visible } from '../../shared/words.ts';
import { type FindingKind, kindsOf, moreLikeIt } from '../present/notices.ts';
import type { Terminal } from './core.ts';

/** Each error is to be fixed, so each is listed; but a column that is wrong throughout would bury the others. */
export const MOST_ERRORS_OF_A_KIND = 200;
/** Of more notices of a kind the first stands for all. */
export const MOST_NOTICES_OF_A_KIND = 2;

/**
 * Writes them in their order; what is summed up, with its number and the next rows, comes after the last one listed.
 * @param prefix stands before the names of files: a folder's name and a slash when there are several
 * @param listAll each on a line of its own, none summed up
 * @param repairs what could be done, each on a line below the error or notice that it is for
 */
export function printFindings(
  findings: readonly Finding[],
  terminal: Terminal,
  prefix: string,
  listAll: boolean,
  repairs: readonly Repair[] = [],
): void {
  const shown = listAll ? findings : withoutRepeats(findings);
  const lines = shown.flatMap((finding) => [
    oneLine(formatFinding({ ...finding, table: prefix + finding.table })),
    ...repairsFor(finding, repairs).map(({ title, why }) => oneLine(`  repair: ${title} – ${why}`)),
  ]);
  if (lines.length > 0) terminal.err(lines.join(''));
}

function oneLine(text: string): string {
  return `${visible(text.replace(/\s*[\r\n]+\s*/g, ' '))}\n`;
}

function withoutRepeats(findings: readonly Finding[]): Finding[] {
  const hidden = new Set<number>();
  const summedUp = new Map<number, Finding>();
  for (const kind of kindsOf(findings)) {
    const listed = listedOf(kind);
    for (const index of kind.indices.slice(listed)) hidden.add(index);
    const last = kind.indices[listed - 1];
    const line = lineForTheRest(kind, listed);
    if (line !== null && last !== undefined) summedUp.set(last, line);
  }
  return findings.flatMap((finding, index) => {
    if (hidden.has(index)) return [];
    const rest = summedUp.get(index);
    return rest === undefined ? [finding] : [finding, rest];
  });
}

function listedOf({ severity, count }: FindingKind): number {
  if (severity === 'error') return Math.min(count, MOST_ERRORS_OF_A_KIND);
  return count <= MOST_NOTICES_OF_A_KIND ? count : 1;
}

/** In the form of a finding of the whole column. */
function lineForTheRest({ members, column }: FindingKind, listed: number): Finding | null {
  const [first] = members;
  const more = moreLikeIt(members, listed);
  if (first === undefined || more === null) return null;
  const message = first.severity === 'error' ? `${more}; --list-all lists each` : more;
  return { ...first, row: null, column, message };
}
