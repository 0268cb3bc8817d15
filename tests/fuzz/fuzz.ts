/** Runs cases, shrinks each that fails by undoing its mutations one by one, and keeps the smallest folder that shows it. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Case, caseOf, folderOf, type Kind, LARGE_SHARE } from './cases.ts';
import { type Answer, Pool } from './pool.ts';
import { type Sound, soundSurveys } from './surveys.ts';

export interface Options {
  /** the repository's folder */
  root: string;
  /** the bundled child.ts */
  program: string;
  kind: Kind;
  cases: number;
  seed: number;
  /** number of the first case */
  from?: number;
  workers?: number;
  /** share of the cases that spoil a large survey, 0 to 1 */
  largeShare?: number;
  /** where failures are kept; nowhere when left out */
  keep?: string;
  /** told after each case */
  progress?: (done: number, failures: readonly Failure[]) => void;
}

export interface Failure {
  number: number;
  problem: string;
  /** what was done to the survey, after shrinking */
  done: string[];
  case: Case;
}

export interface Summary {
  cases: number;
  /** cases that ended with each code */
  codes: { 0: number; 1: number; 2: number };
  /** processor time in ms: half of the cases are below, and the longest that ended */
  medianMs: number;
  longestMs: number;
  failures: Failure[];
}

export async function fuzz(options: Options): Promise<Summary> {
  const { root, program, kind, cases, seed, from = 0, workers = 2 } = options;
  const { largeShare = LARGE_SHARE[kind] } = options;
  const surveys = soundSurveys(root);
  const pool = new Pool(program, root, workers);
  const failures: Failure[] = [];
  const times: number[] = [];
  const codes = { 0: 0, 1: 0, 2: 0 };
  let next = from;
  const work = async (): Promise<void> => {
    while (next < from + cases) {
      const number = next++;
      const asked = caseOf(kind, seed, number, surveys, largeShare);
      const answer = await pool.run(asked);
      times.push(answer.ms);
      codes[answer.code]++;
      if (answer.problem !== null) {
        const failure = await shrunk(pool, number, asked, answer, surveys);
        failures.push(failure);
        if (options.keep !== undefined) keep(options.keep, seed, failure, surveys);
      }
      options.progress?.(times.length, failures);
    }
  };
  try {
    await Promise.all(Array.from({ length: workers }, work));
  } finally {
    pool.end();
  }
  times.sort((a, b) => a - b);
  failures.sort((a, b) => a.number - b.number);
  return {
    cases: times.length,
    codes,
    medianMs: times[times.length >> 1] ?? 0,
    longestMs: times.at(-1) ?? 0,
    failures,
  };
}

/** Leaves out every mutation without which the same still goes wrong. */
async function shrunk(
  pool: Pool,
  number: number,
  asked: Case,
  answer: Answer,
  surveys: readonly Sound[],
): Promise<Failure> {
  let smallest = asked;
  let problem = answer.problem ?? '';
  for (const mutation of asked.mutations) {
    const left = smallest.mutations.filter((m) => m !== mutation);
    if (left.length === 0) continue;
    const again = await pool.run({ ...smallest, mutations: left });
    if (again.problem === null || sort(again.problem) !== sort(problem)) continue;
    smallest = { ...smallest, mutations: left };
    problem = again.problem;
  }
  return { number, problem, done: folderOf(smallest, surveys).done, case: smallest };
}

/** exception, time, memory, … */
function sort(problem: string): string {
  return problem.split(':')[0] ?? '';
}

function keep(folder: string, seed: number, failure: Failure, surveys: readonly Sound[]): void {
  const place = join(folder, `${failure.case.kind}-${seed}-${failure.number}`);
  mkdirSync(place, { recursive: true });
  for (const [name, bytes] of folderOf(failure.case, surveys).files)
    writeFileSync(join(place, name), bytes);
  const told = [
    failure.problem,
    '',
    failure.case.survey,
    ...failure.done,
    '',
    JSON.stringify(failure.case),
  ];
  writeFileSync(join(place, 'failure.txt'), `${told.join('\n')}\n`);
}
