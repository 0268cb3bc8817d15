/** The place where files of others become a survey: what they are, what is asked about them, what will come of it. */

import { useEffect, useId, useRef } from 'react';
import { counted, term } from '../../../../shared/glossary.ts';
import type { AskedQuestion } from '../../../../shared/importing.ts';
import { formatCount } from '../../../../shared/units.ts';
import { BringInButton } from '../../shell/BringInButton.tsx';
import { Caution, Lead, Said, Sentence, Switch } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { type BringIn, bringIn, useBringIn } from '../../state/bring-in.ts';
import { GivenFiles } from './GivenFiles.tsx';
import { ImportFindings } from './ImportFindings.tsx';
import { Outcome } from './Outcome.tsx';
import { QuestionCard } from './QuestionCard.tsx';
import './bring-in.css';

export function BringInFiles() {
  const { state, actions } = useApp();
  const now = useBringIn();
  const { imported, busy, trouble } = now;
  const questions = imported?.questions ?? [];
  const open = questions.filter(({ answer }) => answer === null);
  const settled = questions.filter(({ answer }) => answer !== null);
  const finish = () => {
    const work = bringIn.finished();
    if (work === null) return;
    actions.openImported(work);
    bringIn.leave();
  };
  return (
    <div className="station bring-in" aria-busy={busy !== null}>
      <Sentence>
        <Said text={sentence(now, open.length)} />
      </Sentence>
      <Lead>
        Spreadsheets, maps and GPS files as they are. What could be read in two ways is asked, with
        its evidence. Nothing is changed before you bring it in.
      </Lead>
      {trouble !== null && (
        <Caution>
          <p>{trouble}</p>
        </Caution>
      )}
      <GivenFiles files={now.files} recognised={now.recognised} busy={busy === 'reading'} />
      <p className="bring-in-ways">
        <BringInButton className="button">Add files</BringInButton>
        <button type="button" className="button" onClick={bringIn.leave}>
          Leave without bringing anything in
        </button>
      </p>
      <Into now={now} open={state.work} />
      {imported !== null && <ImportFindings findings={imported.findings} />}
      <Questions asked={open} />
      {settled.length > 0 && <Settled asked={settled} accepted={now.accepted} />}
      {imported !== null && imported.remarks.length > 0 && (
        <details>
          <summary>Settled without a question</summary>
          <ul className="remarks">
            {imported.remarks.map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
          </ul>
        </details>
      )}
      {imported?.files != null && <Outcome imported={imported} />}
      <p>
        <button
          type="button"
          className="button primary"
          disabled={busy !== null || imported?.files == null}
          onClick={finish}
        >
          Bring it in
        </button>
      </p>
    </div>
  );
}

function sentence({ busy, imported, trouble, files }: BringIn, open: number): string {
  const n = formatCount(files.length);
  if (busy === 'reading') return `Reading ${n} ${files.length === 1 ? 'file' : 'files'} …`;
  if (trouble !== null || imported === null) return 'Files to bring in';
  if (open > 0)
    return open === 1
      ? '1 question is open before these files can be brought in.'
      : `${formatCount(open)} questions are open before these files can be brought in.`;
  if (imported.files === null) return 'These files cannot be brought in as they are.';
  const errors = imported.judged?.findings.filter((f) => f.severity === 'error').length ?? 0;
  return errors === 0
    ? 'Everything is answered: the survey can be brought in.'
    : `Everything is answered. ${counted(errors, formatCount(errors), 'error')} in the data can be fixed once the survey is brought in.`;
}

/** Which survey the files go into. */
function Into({ now, open }: { now: BringIn; open: BringIn['joins'] }) {
  const id = useId();
  if (open !== null)
    return (
      <div className="bring-in-into">
        <Switch
          label="Where the files go"
          value={now.joins === null ? 'own' : 'open'}
          options={[
            { value: 'open', text: `Into ${open.name}` },
            { value: 'own', text: 'A survey of their own' },
          ]}
          onChange={(where) => bringIn.join(where === 'open' ? open : null)}
        />
        {now.joins === null && <NameField now={now} id={id} />}
      </div>
    );
  return <NameField now={now} id={id} />;
}

function NameField({ now, id }: { now: BringIn; id: string }) {
  return (
    <p className="bring-in-name">
      <label htmlFor={id}>Name of the {term('survey')}</label>
      <input
        id={id}
        className="field"
        value={now.name}
        maxLength={200}
        autoComplete="off"
        placeholder="survey"
        onChange={(event) => bringIn.rename(event.target.value)}
      />
    </p>
  );
}

/** One under another; after an answer the next one that is open is where the keyboard is. */
function Questions({ asked }: { asked: readonly AskedQuestion[] }) {
  const list = useRef<HTMLDivElement>(null);
  const first = asked[0]?.question.id ?? null;
  const shown = useRef(first);
  useEffect(() => {
    if (shown.current === first) return;
    const answered = shown.current !== null;
    shown.current = first;
    if (answered && document.activeElement === document.body)
      list.current?.querySelector<HTMLElement>('h2')?.focus();
  }, [first]);
  return (
    <div ref={list} className="questions">
      {asked.map((one, i) => (
        <QuestionCard key={one.question.id} asked={one} number={i + 1} desk={bringIn} />
      ))}
    </div>
  );
}

function Settled({
  asked,
  accepted,
}: {
  asked: readonly AskedQuestion[];
  accepted: ReadonlySet<string>;
}) {
  const unseen = asked.filter(
    ({ by, question }) => by === 'proposal' && !accepted.has(question.id),
  ).length;
  const n = formatCount(asked.length);
  const how = unseen > 0 ? ` (${formatCount(unseen)} without a second reading)` : '';
  return (
    <details>
      <summary>
        {asked.length === 1 ? '1 question is answered' : `${n} questions are answered`}
        {how}; look at them or change them
      </summary>
      <div className="questions">
        {asked.map((one) => (
          <QuestionCard key={one.question.id} asked={one} number={null} desk={bringIn} />
        ))}
      </div>
    </details>
  );
}
