/** The Change station: the open survey held against others of its lake, how many times as many mussels there are, and how sure that is. */

import '../bring-in/bring-in.css';
import './change.css';
import { useEffect } from 'react';
import { gloss, term, terms } from '../../../../shared/glossary.ts';
import { formatCount } from '../../../../shared/units.ts';
import { visible } from '../../../../shared/words.ts';
import { stepWords } from '../../../present/steps.ts';
import type { JudgedView, Work } from '../../contract.ts';
import { Caution, Lead, Sentence } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { type ChangeState, change, useChange } from '../../state/change-desk.ts';
import { ImportFindings } from '../bring-in/ImportFindings.tsx';
import { QuestionCard } from '../bring-in/QuestionCard.tsx';
import { NoEstimate } from '../NoEstimate.tsx';
import { ChangeResult } from './ChangeResult.tsx';
import { Others } from './Others.tsx';
import { TreatedPlaces } from './TreatedPlaces.tsx';

/** Notices of the comparison itself; the others are those of each survey. */
const OWN_NOTICES = new Set(['nothing-to-compare', 'no-common-ground']);

export function ChangeStation() {
  const { state } = useApp();
  const { work, judged, result } = state;
  return (
    <div className="station change-station">
      {work === null || judged === null || result === null ? (
        <NoEstimate subject="lake" />
      ) : (
        <Held work={work} judged={judged} />
      )}
    </div>
  );
}

function Held({ work, judged }: { work: Work; judged: JudgedView }) {
  const now = useChange();
  const { name, files } = work;
  const { treatments } = judged.lake;
  useEffect(() => change.hold({ name, files }, treatments), [name, files, treatments]);
  const { view, step, trouble } = now;
  const questions = view?.ok ? view.questions : [];
  const open = questions.filter(({ answer }) => answer === null);
  const settled = questions.filter(({ answer }) => answer !== null);
  const file = view?.ok && step === null ? view.file : null;
  const findings = view?.findings ?? [];
  const told = view?.ok ? findings.filter(({ code }) => OWN_NOTICES.has(code)) : findings;
  const others = findings.filter((finding) => !told.includes(finding));
  return (
    <div aria-busy={step !== null} className="change-held">
      {file === null || file.pairs.length === 0 ? (
        <Sentence>{sentence(now, open.length)}</Sentence>
      ) : (
        <ChangeResult file={file} pictures={view?.ok ? view.pictures : []} />
      )}
      {step !== null && (
        <p className="question-ways no-print">
          <progress aria-label={doing(now)} />
          <button type="button" className="button small" onClick={change.cancel}>
            Cancel
          </button>
        </p>
      )}
      {now.cancelled && (
        <p className="question-ways no-print">
          <button type="button" className="button" onClick={change.again}>
            Hold them against each other
          </button>
        </p>
      )}
      {now.others.length === 0 && (
        <Lead>
          Open the {term('survey')} of another time beside this one. Each is estimated by itself and
          held against the next one on their {term('commonGround')}: {gloss('commonGround')}.
        </Lead>
      )}
      {trouble !== null && (
        <Caution>
          <p>{trouble}</p>
        </Caution>
      )}
      <ImportFindings findings={told} />
      <div className="questions">
        {open.map((asked, i) => (
          <QuestionCard key={asked.question.id} asked={asked} number={i + 1} desk={change} />
        ))}
      </div>
      <Others now={now} />
      {now.others.length > 0 && <TreatedPlaces now={now} />}
      {settled.length > 0 && (
        <details>
          <summary>
            {settled.length === 1
              ? '1 question is answered'
              : `${formatCount(settled.length)} questions are answered`}
            ; look at them or change them
          </summary>
          <div className="questions">
            {settled.map((asked) => (
              <QuestionCard key={asked.question.id} asked={asked} number={null} desk={change} />
            ))}
          </div>
        </details>
      )}
      {others.length > 0 && (
        <details>
          <summary>What was noticed in each {term('survey')}</summary>
          <ImportFindings findings={others} />
        </details>
      )}
    </div>
  );
}

function doing({ step, about }: ChangeState): string {
  const words = stepWords(step ?? '');
  return about === null ? words : `${words}, ${visible(about)}`;
}

function sentence(now: ChangeState, open: number): string {
  const { others, step, view, trouble, cancelled } = now;
  if (others.length === 0) return `No other ${term('survey')} is held against this one yet.`;
  if (step !== null) return `${doing(now)} …`;
  if (cancelled)
    return `These ${terms('survey')} were not held against each other: that was cancelled.`;
  if (trouble !== null || view === null || !view.ok)
    return `These ${terms('survey')} cannot be held against each other as they are.`;
  if (open > 0)
    return open === 1
      ? `1 question is open before these ${terms('survey')} are held against each other.`
      : `${formatCount(open)} questions are open before these ${terms('survey')} are held against each other.`;
  return `There is nothing by which these ${terms('survey')} could be held against each other.`;
}
