/**
 * Answers that were given before: import.json of an earlier import, the list of questions that the command line writes (whose
 * proposals are taken by `"accept": true`), or a JSON object of identifiers and answers.
 */

import { errorAt, type Finding } from '../../shared/findings.ts';
import type { Answer, GivenFile } from '../../shared/importing.ts';

export interface GivenAnswers {
  answers: Map<string, Answer>;
  findings: Finding[];
}

/** A list of questions is larger than this only by a map's many codes. */
const MOST_BYTES = 20_000_000;

/** Questions whose answer is null are open. Never throws: what cannot be read is a finding. */
export function readAnswers({ name, bytes }: GivenFile): GivenAnswers {
  const fail = (column: string | null, message: string): GivenAnswers => ({
    answers: new Map(),
    findings: [errorAt({ table: name, column }, 'answers-unreadable', message)],
  });
  if (bytes.length > MOST_BYTES)
    return fail(null, `more than ${MOST_BYTES / 1e6} MB (a file of answers expected)`);
  let content: unknown;
  try {
    content = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    return fail(null, `not valid JSON (${(error as Error).message})`);
  }
  const pairs = pairsOf(content);
  if (pairs === null)
    return fail(null, 'no answers in it (an import.json, or {"identifier": answer}, expected)');
  const answers = new Map<string, Answer>();
  for (const [id, given] of pairs) {
    if (given === null || given === undefined) continue;
    if (!isAnswer(given))
      return fail(id, 'neither words, a number nor one answer for each key of a matching');
    answers.set(id, given);
  }
  return { answers, findings: [] };
}

/** Identifiers and what stands as their answers; null where the content is nothing of the kind. */
function pairsOf(content: unknown): [string, unknown][] | null {
  if (!isRecord(content)) return null;
  const { questions } = content;
  if (questions === undefined) return Object.entries(content).filter(([id]) => id !== 'schema');
  if (!Array.isArray(questions)) return null;
  const pairs: [string, unknown][] = [];
  for (const question of questions) {
    if (!isRecord(question) || typeof question.id !== 'string') return null;
    pairs.push([question.id, question.accept === true ? question.proposal : question.answer]);
  }
  return pairs;
}

function isAnswer(given: unknown): given is Answer {
  if (typeof given === 'string' || (typeof given === 'number' && Number.isFinite(given)))
    return true;
  return isRecord(given) && Object.values(given).every((value) => typeof value === 'string');
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
