/** One question: what was measured, a picture of it, the ways to answer, and the one that is proposed. */

import { useId } from 'react';
import { type Answer, type AskedQuestion, notProposed } from '../../../../shared/importing.ts';
import { plain, visible } from '../../../../shared/words.ts';
import { Caution } from '../../shell/ui.tsx';
import type { AnswerDesk } from '../../state/answer-desk.ts';
import { AnswerFields } from './AnswerFields.tsx';
import { Picture } from './Picture.tsx';

export function QuestionCard({
  asked,
  number,
  desk,
}: {
  asked: AskedQuestion;
  number: number | null;
  /** takes the answer */
  desk: AnswerDesk;
}) {
  const { question, answer, by, refused } = asked;
  const { id, about, ask, evidence, pictures, proposal } = question;
  const isWhole = notProposed(question).length === 0;
  const title = useId();
  return (
    <section className="question" aria-labelledby={title}>
      <h2 id={title} tabIndex={-1}>
        {number !== null && `${number}. `}
        {visible(ask)}
      </h2>
      <p className="small quiet">{visible(about)}</p>
      <ul className="evidence">
        {evidence.map((line) => (
          <li key={line}>{visible(line)}</li>
        ))}
      </ul>
      {pictures.map((picture) => (
        <Picture
          key={`${picture.kind} ${picture.caption}`}
          picture={picture}
          {...('options' in question ? { options: question.options } : {})}
        />
      ))}
      {refused !== null && (
        <Caution>
          <p>An earlier answer is not possible for these files: {visible(refused)}.</p>
        </Caution>
      )}
      <AnswerFields asked={asked} labelledBy={title} desk={desk} />
      <p className="question-ways">
        {answer === null && proposal !== null && isWhole && (
          <button type="button" className="button" onClick={() => desk.accept(id)}>
            {acceptWords(proposal)}
          </button>
        )}
        {answer !== null && by !== null && <Standing by={by} certain={question.certain} />}
        {answer !== null && !(by === 'proposal' && question.certain) && (
          <button type="button" className="link" onClick={() => desk.withdraw(id)}>
            Ask again
          </button>
        )}
      </p>
    </section>
  );
}

function Standing({ by, certain }: { by: 'answers' | 'proposal'; certain: boolean }) {
  if (by === 'answers') return <span className="small quiet">Answered.</span>;
  return (
    <span className="small quiet">
      {certain ? 'Taken, as there is no second reading.' : 'The proposal is taken.'}
    </span>
  );
}

function acceptWords(proposal: Answer): string {
  return typeof proposal === 'number' ? `Take ${plain(proposal)}` : 'Take it as proposed';
}
