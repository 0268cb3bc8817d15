/** The ways to answer a question, by its kind. What is proposed is marked; choosing anything answers. */

import { type FormEvent, useEffect, useId, useState } from 'react';
import {
  type Answer,
  type AskedQuestion,
  notProposed,
  type Option,
  type Question,
} from '../../../../shared/importing.ts';
import { plain, visible } from '../../../../shared/words.ts';
import { TableScroll } from '../../shell/ui.tsx';
import type { AnswerDesk } from '../../state/answer-desk.ts';

export function AnswerFields({
  asked: { question, answer },
  labelledBy,
  desk,
}: {
  asked: AskedQuestion;
  labelledBy: string;
  desk: AnswerDesk;
}) {
  const onAnswer = (given: Answer): void => desk.answer(question.id, given);
  switch (question.kind) {
    case 'choice':
      return (
        <Choices
          question={question}
          chosen={typeof answer === 'string' ? answer : null}
          labelledBy={labelledBy}
          onAnswer={onAnswer}
        />
      );
    case 'number':
    case 'text':
      return (
        <Typed
          question={question}
          answer={typeof answer === 'object' ? null : answer}
          labelledBy={labelledBy}
          onAnswer={onAnswer}
        />
      );
    case 'matching':
      return (
        <Matching
          question={question}
          answer={typeof answer === 'object' ? answer : null}
          labelledBy={labelledBy}
          onAnswer={onAnswer}
        />
      );
  }
}

function Choices({
  question: { options, proposal },
  chosen,
  labelledBy,
  onAnswer,
}: {
  question: Extract<Question, { kind: 'choice' }>;
  chosen: string | null;
  labelledBy: string;
  onAnswer(answer: Answer): void;
}) {
  const name = useId();
  return (
    <div role="radiogroup" aria-labelledby={labelledBy} className="options">
      {options.map(({ value, label, because }) => (
        <label key={value}>
          <input
            type="radio"
            name={name}
            checked={value === chosen}
            onChange={() => onAnswer(value)}
          />
          <span>
            {visible(label)}
            {value === proposal && <span className="proposed"> proposed</span>}
            {because !== undefined && <span className="small quiet"> {visible(because)}</span>}
          </span>
        </label>
      ))}
    </div>
  );
}

function Typed({
  question,
  answer,
  labelledBy,
  onAnswer,
}: {
  question: Extract<Question, { kind: 'number' | 'text' }>;
  answer: string | number | null;
  labelledBy: string;
  onAnswer(answer: Answer): void;
}) {
  const help = useId();
  const { kind, proposal } = question;
  const start = String(answer ?? proposal ?? '');
  const [text, setText] = useState(start);
  useEffect(() => setText(start), [start]);
  const value = kind === 'number' ? Number(text.replace(',', '.')) : text.trim();
  const fits =
    typeof value === 'number'
      ? text.trim() !== '' && value >= numberOf(question).least && value <= numberOf(question).most
      : value !== '';
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (fits) onAnswer(value);
  };
  return (
    <form className="typed" onSubmit={submit}>
      <input
        className="field"
        value={text}
        inputMode={kind === 'number' ? 'decimal' : 'text'}
        aria-labelledby={labelledBy}
        aria-describedby={help}
        autoComplete="off"
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" className="button" disabled={!fits || value === answer}>
        Keep this answer
      </button>
      <span id={help} className="small quiet">
        {rangeOf(question)}
      </span>
    </form>
  );
}

function numberOf(question: Question): { least: number; most: number } {
  return question.kind === 'number' ? question : { least: 0, most: 0 };
}

function rangeOf(question: Extract<Question, { kind: 'number' | 'text' }>): string {
  const proposed = question.proposal === null ? '' : `; proposed: ${plainly(question.proposal)}`;
  return question.kind === 'number'
    ? `${question.unit}, from ${plain(question.least)} to ${plain(question.most)}${proposed}`
    : `in words${proposed}`;
}

function plainly(value: string | number): string {
  return typeof value === 'number' ? plain(value) : visible(value);
}

/** Changed as a whole: it counts when it is kept. */
function Matching({
  question,
  answer,
  labelledBy,
  onAnswer,
}: {
  question: Extract<Question, { kind: 'matching' }>;
  answer: { [key: string]: string } | null;
  labelledBy: string;
  onAnswer(answer: Answer): void;
}) {
  const { keys, options, proposal } = question;
  const standing = answer ?? proposal ?? {};
  const [changed, setChanged] = useState<{ [key: string]: string }>({});
  const now = { ...standing, ...changed };
  const missing = answer === null ? notProposed(question) : [];
  const open = keys.filter(({ key }) => now[key] === undefined);
  const whole = open.length === 0;
  const isChanged = keys.some(({ key }) => now[key] !== standing[key]);
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (whole) onAnswer(now);
        setChanged({});
      }}
    >
      <TableScroll labelledBy={labelledBy}>
        <table className="data-table matching" aria-labelledby={labelledBy}>
          <tbody>
            {keys.map(({ key, label }) => (
              <tr key={key}>
                <th scope="row">{visible(label)}</th>
                <td>
                  <select
                    className="field"
                    aria-label={visible(label)}
                    value={now[key] ?? ''}
                    onChange={(event) => setChanged({ ...changed, [key]: event.target.value })}
                  >
                    {now[key] === undefined && <option value="">choose …</option>}
                    {options.map((option) => (
                      <option key={option.value} value={option.value}>
                        {optionText(option, option.value === proposal?.[key])}
                      </option>
                    ))}
                  </select>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
      {(isChanged || missing.length > 0) && (
        <p className="question-ways">
          <button type="submit" className="button" disabled={!whole}>
            Keep this answer
          </button>
          {!whole && (
            <span className="small quiet">
              To be chosen first: {open.map(({ label }) => visible(label)).join(', ')}
            </span>
          )}
        </p>
      )}
    </form>
  );
}

function optionText({ label }: Option, proposed: boolean): string {
  return proposed ? `${visible(label)} (proposed)` : visible(label);
}
