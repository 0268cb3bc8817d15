/** The open questions of an import as a numbered list, and as a file to fill in. */

import {
  type Answer,
  type AskedQuestion,
  type ImportPicture,
  notProposed,
  type Question,
} from '../../shared/importing.ts';
import { plain, visible } from '../../shared/words.ts';
import { columns, WIDTH, wrap } from './text.ts';

/** By which the file is recognised. */
export const ANSWERS_SCHEMA = 'shoalwise/answers/1';
const INDENT = '   ';
/** Longer lists of codes are in the file of answers. */
const MOST_KEYS = 40;
/** Of a cell so much is shown in a preview. */
const WIDEST_CELL = 14;
/** Of more the values alone are listed. */
const MOST_OPTIONS = 30;

/** One after the other: the question, what it is about, the evidence, the answers with the proposed one marked. */
export function questionsText(open: readonly AskedQuestion[]): string {
  return open.map((asked, i) => `${questionText(asked, i + 1)}\n`).join('\n');
}

function questionText({ question, refused }: AskedQuestion, n: number): string {
  const { id, about, ask, evidence, pictures } = question;
  const number = `${n}. `;
  return [
    wrap(visible(ask), number, ' '.repeat(number.length)),
    `${wrap(visible(about), `${INDENT}(`, `${INDENT} `)})`,
    ...evidence.map((line) => item(line)),
    ...pictures.flatMap(pictureLines),
    ...(refused === null
      ? []
      : [item(`The answer that was given is not possible here: ${refused}.`)]),
    ...answersText(question),
    `${INDENT}to answer: ${howToAnswer(id, question)}`,
  ].join('\n');
}

function item(text: string): string {
  return wrap(visible(text), `${INDENT}- `, `${INDENT}  `);
}

function answersText(question: Question): string[] {
  const mark = (value: Answer): string => {
    if (question.proposal !== value) return '';
    return question.certain ? '  (proposed, certain)' : '  (proposed)';
  };
  switch (question.kind) {
    case 'choice':
      return question.options.map(({ value, label, because }) =>
        option(value, `${label}${because === undefined ? '' : ` (${because})`}${mark(value)}`),
      );
    case 'number': {
      const { least, most, unit, proposal } = question;
      const range = `a number from ${plain(least)} to ${plain(most)} ${unit}`;
      return [option(range, proposal === null ? '' : `${plain(proposal)}${mark(proposal)}`)];
    }
    case 'text':
      return [
        option(
          'words',
          question.proposal === null ? '' : question.proposal + mark(question.proposal),
        ),
      ];
    case 'matching': {
      const { keys, options, proposal, certain } = question;
      const lines = keys
        .slice(0, MOST_KEYS)
        .map(({ key, label }) => option(label, proposed(proposal, key)));
      const more = keys.length - lines.length;
      return [
        `${INDENT}${proposal === null ? 'Nothing is proposed:' : `Proposed${certain ? ' (certain)' : ''}:`}`,
        ...lines,
        ...(more > 0 ? [`${INDENT}  and ${more} more`] : []),
        `${INDENT}Each is one of:`,
        ...(options.length > MOST_OPTIONS
          ? [wrap(options.map(({ value }) => visible(value)).join('; '), `${INDENT}  `)]
          : options.map(({ value, label }) => option(value, label))),
      ];
    }
  }
}

/** A question mark where nothing is proposed. */
function proposed(proposal: { [key: string]: string } | null, key: string): string {
  return proposal !== null && Object.hasOwn(proposal, key) ? `→ ${proposal[key]}` : '?';
}

function option(value: string, label: string): string {
  const start = `${INDENT}  ${visible(value)}`;
  const joined = label === '' ? start : `${start}: ${visible(label)}`;
  return wrap(joined, `${INDENT}  `, `${INDENT}    `);
}

function howToAnswer(id: string, asked: Question): string {
  const { kind, proposal, ...question } = asked;
  if (notProposed(asked).length > 0) return 'in the file of --write-answers';
  const taken = proposal === null ? '' : `--accept ${id}`;
  if (kind === 'matching') return [taken, 'or in the file of --write-answers'].join(' ').trim();
  const value =
    kind === 'number' ? 'NUMBER' : kind === 'text' ? '"WORDS"' : firstOther(question, proposal);
  return [taken, `--answer ${id}=${value}`].filter((part) => part !== '').join(' or ');
}

function firstOther(question: Partial<Question>, proposal: unknown): string {
  const options = 'options' in question ? (question.options ?? []) : [];
  return (options.find(({ value }) => value !== proposal) ?? options[0])?.value ?? 'ANSWER';
}

function pictureLines(picture: ImportPicture): string[] {
  switch (picture.kind) {
    case 'map':
      return [item(`${picture.caption} (drawn in the map application)`)];
    case 'scatter':
      return [
        item(
          `${picture.caption} (${picture.points.length} pairs; slope ${plain(picture.slope)}, intercept ${plain(picture.intercept)})`,
        ),
      ];
    case 'table':
      return [item(picture.caption), ...tableLines(picture)];
  }
}

/** As many columns as the width holds. */
function tableLines({ header, rows }: Extract<ImportPicture, { kind: 'table' }>): string[] {
  const indent = `${INDENT}  `;
  const cells = [header, ...rows].map((row) =>
    row.map((cell) => {
      const text = visible(cell);
      return text.length > WIDEST_CELL ? `${text.slice(0, WIDEST_CELL - 1)}…` : text;
    }),
  );
  const lines = columns(
    cells,
    header.map(() => 'left'),
    indent,
  ).split('\n');
  return lines.map((line) => (line.length > WIDTH ? `${line.slice(0, WIDTH - 1)}…` : line));
}

/** Every question with what was answered; `answer` is null, and `accept` false, where it is open. */
export function answersJson(asked: readonly AskedQuestion[]): string {
  const questions = asked.map(({ question, answer }) => {
    const { id, about, ask, evidence, certain, proposal } = question;
    return {
      id,
      about,
      ask,
      evidence,
      ...('options' in question ? { options: record(question.options) } : {}),
      ...('keys' in question
        ? { keys: Object.fromEntries(question.keys.map(({ key, label }) => [key, label])) }
        : {}),
      ...(question.kind === 'number'
        ? { unit: question.unit, least: question.least, most: question.most }
        : {}),
      certain,
      proposal,
      accept: false,
      answer,
    };
  });
  const how = 'Put an answer in place of each null, or "accept": true to take the proposal.';
  return `${JSON.stringify({ schema: ANSWERS_SCHEMA, how, questions }, null, 2)}\n`;
}

function record(options: readonly { value: string; label: string }[]): Record<string, string> {
  return Object.fromEntries(options.map(({ value, label }) => [value, label]));
}
