/**
 * Who answers the questions of the steps: those answers that were given and are possible here, else what is proposed. What was
 * asked is kept in its order, so that all open questions of a pass can be told at once.
 */

import {
  type Answer,
  type AnswerTo,
  type Ask,
  type AskedQuestion,
  notProposed,
  type Option,
  type Question,
} from '../../shared/importing.ts';
import { listed, plain, quoted } from '../../shared/words.ts';

/** Longer answers in words are no answer to any question here. */
export const LONGEST_ANSWER = 200;

export interface Asker {
  ask: Ask;
  /** everything that was asked so far */
  asked(): AskedQuestion[];
}

/** What counts as answered. */
export interface Answered {
  /** by identifier of the question */
  answers: ReadonlyMap<string, Answer>;
  /** identifiers of questions whose proposal is taken */
  accepted: ReadonlySet<string>;
  /** proposals whose evidence leaves no second reading are taken */
  acceptCertain: boolean;
}

export function askerWith(answered: Answered): Asker {
  const asked = new Map<string, AskedQuestion>();
  const ask = <Q extends Question>(question: Q): AnswerTo<Q> | null => {
    const known = sameAsBefore(asked, question);
    const entry = known ?? settled(ownName(asked, question), answered);
    asked.set(entry.question.id, entry);
    // judged against its question: it has the shape of an answer to it
    return (entry.answer ?? entry.question.proposal) as AnswerTo<Q> | null;
  };
  return { ask, asked: () => [...asked.values()] };
}

/** Why this is no answer to the question; null when it is one. */
export function refusal(question: Question, answer: Answer): string | null {
  switch (question.kind) {
    case 'choice':
      return typeof answer === 'string' ? unlisted(answer, question.options) : wrongKind(answer);
    case 'number':
      if (typeof answer !== 'number' || !Number.isFinite(answer)) return wrongKind(answer);
      return answer >= question.least && answer <= question.most
        ? null
        : `${plain(answer)} is not between ${plain(question.least)} and ${plain(question.most)} ${question.unit}`;
    case 'text':
      if (typeof answer !== 'string') return wrongKind(answer);
      return answer.trim() !== '' && answer.length <= LONGEST_ANSWER
        ? null
        : `1 to ${LONGEST_ANSWER} characters are expected`;
    case 'matching': {
      if (typeof answer !== 'object') return wrongKind(answer);
      const missing = question.keys.filter(({ key }) => !Object.hasOwn(answer, key));
      if (missing.length > 0)
        return `nothing is answered for ${listed(
          missing.map(({ label }) => label),
          'and',
        )}`;
      for (const { key, label } of question.keys) {
        const own = answer[key];
        const why = typeof own === 'string' ? unlisted(own, question.options) : wrongKind(own);
        if (why !== null) return `${label}: ${why}`;
      }
      return null;
    }
  }
}

function unlisted(answer: string, options: readonly Option[]): string | null {
  const values = options.map(({ value }) => value);
  return values.includes(answer)
    ? null
    : `${quoted(answer)} is not one of the answers (${listed(values)})`;
}

function wrongKind(answer: unknown): string {
  return `${quoted(JSON.stringify(answer))} does not answer this question`;
}

function settled(
  question: Question,
  { answers, accepted, acceptCertain }: Answered,
): AskedQuestion {
  const given = answers.get(question.id);
  const refused = given === undefined ? null : refusal(question, given);
  if (given !== undefined && refused === null)
    return { question, answer: only(question, given), by: 'answers', refused: null };
  const { proposal } = question;
  const named = accepted.has(question.id);
  const lacking = notProposed(question);
  if ((named || (acceptCertain && question.certain)) && proposal !== null && lacking.length === 0)
    return { question, answer: proposal, by: 'proposal', refused };
  // cells of such a key would be left blank without a word
  const halfTaken =
    named && lacking.length > 0 ? `nothing is proposed for ${listed(lacking, 'and')}` : null;
  return {
    question: withPartOf(question, given),
    answer: null,
    by: null,
    refused: refused ?? halfTaken,
  };
}

/** Of a matching the keys that are asked for: what was answered for others is of another year. */
function only(question: Question, answer: Answer): Answer {
  if (question.kind !== 'matching' || typeof answer !== 'object') return answer;
  return Object.fromEntries(question.keys.map(({ key }) => [key, answer[key]]));
}

/** A matching of which a part was answered before is asked with that part as its proposal. */
function withPartOf(question: Question, given: Answer | undefined): Question {
  if (question.kind !== 'matching' || typeof given !== 'object' || question.proposal === null)
    return question;
  const values = new Set(question.options.map(({ value }) => value));
  const before = question.proposal;
  const proposal = Object.fromEntries(
    question.keys.flatMap(({ key }): [string, string][] => {
      const own = Object.hasOwn(given, key) ? given[key] : undefined;
      if (own !== undefined && values.has(own)) return [[key, own]];
      return Object.hasOwn(before, key) ? [[key, before[key]]] : [];
    }),
  );
  return { ...question, proposal };
}

function sameAsBefore(
  asked: ReadonlyMap<string, AskedQuestion>,
  question: Question,
): AskedQuestion | undefined {
  const before = asked.get(question.id);
  if (before === undefined) return undefined;
  const same = before.question.ask === question.ask && before.question.about === question.about;
  return same ? before : undefined;
}

/** Two questions under one name would get one answer: the second gets a number, in the order of asking. */
function ownName(asked: ReadonlyMap<string, AskedQuestion>, question: Question): Question {
  let { id } = question;
  for (let n = 2; asked.has(id); n++) id = `${question.id}-${n}`;
  return id === question.id ? question : { ...question, id };
}
