/** Runs one folder as the command line does, and says what is wrong with how it went. */

import { type Finding, formatFinding } from '../../shared/findings.ts';
import type { Repair } from '../../shared/repairs.ts';
import { estimateJudged, type Folder, judge } from '../../src/pipeline.ts';
import { publish } from '../../src/publish/index.ts';
import type { Kind } from './cases.ts';

export interface Outcome {
  /** what the command would end with: 0 done, 2 errors in the data, 1 our own fault */
  code: 0 | 1 | 2;
  /** what is wrong, in one line; null when nothing is */
  problem: string | null;
}

/** Words that show a value which was not looked at. */
const LEAK = /\[object|\bundefined\b|\bNaN\b|\bInfinity\b/;
/** Those that no mutation writes into a file: wrong also within quotes. */
const OWN_LEAK = /\[object|\bundefined\b/;
/** A bootstrap of as many replicates as a file may ask for is long by rights. */
const MOST_REPLICATES = 2;
/** Nobody reads more in one line. */
const LONGEST_MESSAGE = 2000;

/** Errors of the program come back as a problem with code 1; nothing is thrown. */
export async function outcomeOf(folder: Folder, kind: Kind): Promise<Outcome> {
  try {
    const problem = kind === 'check' ? await checked(folder) : await estimated(folder);
    return problem;
  } catch (error) {
    const stack = error instanceof Error ? (error.stack ?? error.message) : String(error);
    const lines = stack
      .split('\n')
      .slice(0, 4)
      .map((line) => line.trim());
    return { code: 1, problem: `exception: ${lines.join(' | ')}` };
  }
}

async function checked(folder: Folder): Promise<Outcome> {
  const { ok, findings, repairs } = await judge(folder);
  const problem = wrongFindings(findings, ok, folder) ?? wrongRepairs(await repairs());
  return { code: ok ? 0 : 2, problem };
}

/** A repair that says nothing, or changes nothing. */
function wrongRepairs(repairs: readonly Repair[]): string | null {
  for (const { title, why, edits } of repairs) {
    if (title === '' || why === '' || OWN_LEAK.test(title + why) || /\bNaN\b/.test(title))
      return `a repair says: ${title}, ${why}`;
    const still = edits.find((one) => one.old === one.new || /\b(NaN|Infinity)\b/.test(one.new));
    if (still !== undefined)
      return `a repair changes nothing, or to no number: ${JSON.stringify(still)}`;
  }
  return null;
}

async function estimated(folder: Folder): Promise<Outcome> {
  const judged = await judge(folder);
  const before = wrongFindings(judged.findings, judged.ok, folder);
  if (!judged.ok || before !== null) return { code: judged.ok ? 0 : 2, problem: before };
  const { replicates } = judged.read.analysis.bootstrap;
  const estimate = await estimateJudged(judged, {
    replicates: Math.min(replicates, MOST_REPLICATES),
  });
  if (!estimate.ok) return { code: 2, problem: wrongFindings(estimate.findings, false, folder) };
  const { result } = estimate;
  const problem =
    wrongFindings(result.findings, true, folder) ??
    notFinite(result.estimate, 'estimate') ??
    wrongFiles(publish(result), folder);
  return { code: 0, problem };
}

function wrongFindings(findings: readonly Finding[], ok: boolean, folder: Folder): string | null {
  const errors = findings.filter((f) => f.severity === 'error');
  if (ok !== (errors.length === 0))
    return `verdict: ${ok ? 'done' : 'refused'} with ${errors.length} errors`;
  for (const finding of findings) {
    const line = formatFinding(finding);
    if (line.length > LONGEST_MESSAGE)
      return `message: ${line.length} characters: ${line.slice(0, 200)}`;
    const leak = LEAK.exec(withoutQuotes(finding.message))?.[0];
    if (OWN_LEAK.test(line) || (leak !== undefined && !textOf(folder).includes(leak)))
      return `message: ${line}`;
  }
  return null;
}

/** What stands in quotes is the file's own. */
function withoutQuotes(line: string): string {
  return line.replace(/"[^"]*"/g, '""');
}

/** The first number of a record that is not finite, or value that is missing, by its path; null when there is none. */
function notFinite(value: unknown, path: string): string | null {
  if (value === undefined) return `estimate: ${path} is undefined`;
  if (typeof value === 'number')
    return Number.isFinite(value) ? null : `estimate: ${path} is ${value}`;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, part] of Object.entries(value)) {
    const problem = notFinite(part, `${path}.${Array.isArray(value) ? '[]' : key}`);
    if (problem !== null) return problem;
  }
  return null;
}

/** Words in what is written that the folder does not hold itself, and cells of the grid that are infinite. */
function wrongFiles(
  written: ReadonlyMap<string, Uint8Array | string>,
  folder: Folder,
): string | null {
  const given = textOf(folder);
  for (const [name, content] of written) {
    const text = typeof content === 'string' ? content : '';
    const leak = LEAK.exec(name.endsWith('.html') ? withoutScripts(text) : text);
    if (leak !== null && !given.includes(leak[0])) {
      const around = text.slice(
        Math.max(0, text.indexOf(leak[0]) - 80),
        text.indexOf(leak[0]) + 40,
      );
      return `written: ${name} holds ${leak[0]}: …${around.replace(/\s+/g, ' ')}…`;
    }
    if (name === 'grid.tif' && typeof content !== 'string' && hasInfinity(content))
      return 'written: an infinite cell in grid.tif';
  }
  return null;
}

/** All that the folder holds: words that it brings itself are not ours. */
function textOf({ files }: Folder): string {
  return [...files.values()].map((bytes) => new TextDecoder().decode(bytes)).join('\n');
}

function withoutScripts(html: string): string {
  return html.replace(/<script\b[\s\S]*?<\/script>/g, '');
}

/** Our grids are 4-byte floats in one run at the end of the file. */
function hasInfinity(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = bytes.length - 4; at >= 4096; at -= 4)
    if (Math.abs(view.getFloat32(at, true)) === Number.POSITIVE_INFINITY) return true;
  return false;
}
