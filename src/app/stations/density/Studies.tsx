/** Bootstrap and simulation study from the page: how many, how far, cancel, and what came out with what it means. */

import { type ReactNode, useId, useState } from 'react';
import { gloss, label, labels, term, terms } from '../../../../shared/glossary.ts';
import { formatCount } from '../../../../shared/units.ts';
import { VARIANTS_FILE } from '../../../../shared/variants.ts';
import { readStudy } from '../../../present/simulation-study.ts';
import { stepWords } from '../../../present/steps.ts';
import { bootstrapSentence } from '../../../present/sureness.ts';
import type { AppActions, Work } from '../../contract.ts';
import { DataTable } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { sameFiles } from '../../state/files.ts';
import type { KeptStudy, Studies as StudiesState, StudyKind } from '../../study-contract.ts';

/** A first look, a better one, and what a paper asks for. */
const REPLICATES = [200, 500, 1000];
const SURVEYS = [20, 100, 500];
/** Told where they are asked for. */
const ELSEWHERE: readonly StudyKind[] = ['areas', 'check', 'few'];

export function Studies({
  work,
  lake,
  studies,
  actions,
}: {
  work: Work;
  lake: string;
  studies: StudiesState;
  actions: Pick<AppActions, 'startStudy' | 'cancelStudy'>;
}) {
  const { bootstrap, rehearsal, running, problem } = studies;
  const busy = running !== null;
  return (
    <section className="studies" aria-labelledby="studies-title">
      <h2 id="studies-title">
        {label('bootstrap')} and {term('simulationStudy')}
      </h2>
      <p className="small quiet">
        They take minutes, and go on while you look around. No number above depends on them.
      </p>
      <Start
        title={labels('bootstrapReplicate')}
        meaning={`${label('bootstrap')}: ${gloss('bootstrap')}.`}
        counts={REPLICATES}
        busy={busy}
        onStart={(count) => actions.startStudy('bootstrap', count)}
      />
      <Start
        title="Simulated surveys"
        meaning={`${label('simulationStudy')}: ${gloss('simulationStudy')}.`}
        counts={SURVEYS}
        busy={busy}
        onStart={(count) => actions.startStudy('rehearsal', count)}
      />
      {running !== null && <Running running={running} onCancel={actions.cancelStudy} />}
      {problem !== null && !ELSEWHERE.includes(problem.kind) && (
        <p role="alert" className="study-problem">
          Nothing came of it: {problem.why}.
        </p>
      )}
      {bootstrap !== null && (
        <Outcome study={bootstrap} work={work}>
          <Bootstrap study={bootstrap} />
        </Outcome>
      )}
      {rehearsal !== null && (
        <Outcome study={rehearsal} work={work}>
          <Simulated study={rehearsal} lake={lake} />
        </Outcome>
      )}
    </section>
  );
}

function Start({
  title,
  meaning,
  counts,
  busy,
  onStart,
}: {
  title: string;
  meaning: string;
  counts: readonly number[];
  busy: boolean;
  onStart(count: number): void;
}) {
  const id = useId();
  const [count, setCount] = useState(counts[0]);
  return (
    <div className="study-start">
      <div className="choice-line">
        <label htmlFor={id}>{title}</label>
        <span className="study-ask">
          <select
            id={id}
            className="field"
            value={count}
            aria-describedby={`${id}m`}
            onChange={(event) => setCount(Number(event.target.value))}
          >
            {counts.map((n) => (
              <option key={n} value={n}>
                {formatCount(n)}
              </option>
            ))}
          </select>
          <button
            type="button"
            className="button small"
            disabled={busy}
            onClick={() => onStart(count)}
          >
            Run<span className="visually-hidden"> {title}</span>
          </button>
        </span>
      </div>
      <p id={`${id}m`} className="small quiet">
        {meaning}
      </p>
    </div>
  );
}

/** How far, and how to end it; the words alone are read out, not each per cent. */
export function Running({
  running: { step, share },
  onCancel,
}: {
  running: NonNullable<StudiesState['running']>;
  onCancel(): void;
}) {
  const words = stepWords(step);
  return (
    <div className="study-running">
      <span role="status">{words} …</span>
      <progress value={share} aria-label={words} />
      <span className="small">{Math.round(100 * share)} %</span>
      <button type="button" className="button small" onClick={onCancel}>
        Cancel
      </button>
    </div>
  );
}

function Outcome({ study, work, children }: { study: KeptStudy; work: Work; children: ReactNode }) {
  return (
    <div className="study-outcome" role="status">
      {!sameFiles(withoutVariants(study.files), withoutVariants(work.files)) && (
        <p className="small study-old">From before the last change of the survey.</p>
      )}
      {children}
    </div>
  );
}

function Bootstrap({ study }: { study: KeptStudy }) {
  if (study.kind !== 'bootstrap') return null;
  return (
    <>
      <p>
        {keptTogether(
          bootstrapSentence(study.result) ?? 'There is no lake-wide number to resample.',
        )}
      </p>
      <p className="small quiet">
        If the two are far apart, the {term('confidenceInterval')} of the model rests on what it
        assumes of {terms('transect')}. To have it in the report, set {terms('bootstrapReplicate')}{' '}
        among the choices.
      </p>
    </>
  );
}

function Simulated({ study, lake }: { study: KeptStudy; lake: string }) {
  if (study.kind !== 'rehearsal') return null;
  const { title, sentence, rows, notes } = readStudy(lake, study.summary, false, study.level);
  const [head, ...body] = rows;
  return (
    <>
      {sentence !== null && <p>{keptTogether(sentence)}</p>}
      <p className="small">{keptTogether(title)}</p>
      <DataTable
        caption={title}
        captionHidden
        columns={head.map((name, i) => ({
          title: name,
          ...(i === 0 ? {} : { align: 'right' as const }),
          cell: (row: string[]) => row[i],
        }))}
        rows={body}
        keyOf={([noun]) => noun}
      />
      {notes.map((note) => (
        <p key={note} className="small quiet">
          {note}
        </p>
      ))}
    </>
  );
}

/** No number depends on them. */
export function withoutVariants(files: Work['files']): Work['files'] {
  return new Map([...files].filter(([name]) => name !== VARIANTS_FILE));
}
