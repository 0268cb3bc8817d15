/**
 * Between two transects: what a few more would bring today. It is worked out beside the log, in a worker of its own, from what was
 * entered so far: by itself after entries, else when it is asked for. Nothing waits for it.
 */

import { useEffect, useId, useRef } from 'react';
import { term } from '../../../../shared/glossary.ts';
import { readFewMore } from '../../../present/few-more.ts';
import { stepWords } from '../../../present/steps.ts';
import { DataTable } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { sameFiles } from '../../state/files.ts';
import { useGoal } from '../../state/goal.ts';
import { LOG_REASON } from '../../state/log-tables.ts';
import { Taps } from './parts.tsx';
import type { Log } from './use-log.ts';

/** CVs of a total that surveys are planned for, %; one that was set at the station Next dives stands beside them. */
const GOALS = [10, 15, 20, 25, 30];

export function MoreToday({ log: { work } }: { log: Log }) {
  const { state, actions } = useApp();
  const { running, few: study, problem } = state.studies;
  const [goal, setGoal] = useGoal();
  const id = useId();
  const asked = useRef<typeof work.files | null>(null);
  const goals = [...new Set([...GOALS, goal])].sort((a, b) => a - b);
  const ask = (): void => {
    asked.current = work.files;
    actions.fewMore(goals.map((percent) => percent / 100));
  };
  const of = study?.kind === 'few' ? study : null;
  const isNow = of !== null && sameFiles(of.files, work.files);
  const entered = work.edits.some(({ reason }) => reason === LOG_REASON);
  const hasLake = state.judged !== null && state.judged.lake.outline !== null;
  const isSound = state.judged?.ok === true;
  const due =
    hasLake && isSound && entered && !isNow && running === null && asked.current !== work.files;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for what was entered, also when it comes to nothing
  useEffect(() => {
    if (due) ask();
  }, [due]);
  const read = of?.few.map((few) => ({ few, words: readFewMore(few) })) ?? [];
  const shown = read.find(({ few }) => few.goal === goal / 100)?.words ?? null;
  if (!hasLake) return null;
  return (
    <section className="log-more" aria-labelledby={id}>
      <h2 id={id}>How many more today</h2>
      {shown !== null && (
        <>
          <p className="log-said" role={isNow ? 'status' : undefined}>
            {keptTogether(shown.sentence)}
          </p>
          <p className="log-hint">{shown.rule}</p>
          {!isNow && <p className="log-hint">From before the last entries.</p>}
        </>
      )}
      {running?.kind === 'few' && <p className="log-hint">{stepWords(running.step)} …</p>}
      {problem?.kind === 'few' && running === null && (
        <p className="log-hint">It cannot be told yet: {problem.why}.</p>
      )}
      {shown === null && running === null && !isSound && (
        <p className="log-hint">It is told once no error is left in the tables.</p>
      )}
      {shown === null && running === null && isSound && (
        <button type="button" className="log-button" onClick={ask}>
          How many more today?
        </button>
      )}
      {shown !== null && (
        <details>
          <summary>Another goal, one to ten more</summary>
          <Taps
            name={`The ${term('cv')} that was set as goal`}
            options={goals.map((percent) => ({ value: String(percent), text: `${percent} %` }))}
            isOn={(percent) => percent === String(goal)}
            onTap={(percent) => setGoal(Number(percent))}
          />
          <DataTable
            caption="What more dives are expected to bring"
            captionHidden
            columns={shown.head.map((title, i) => ({
              title,
              align: 'right' as const,
              cell: (row: string[]) => row[i],
            }))}
            rows={shown.rows}
            keyOf={([n]) => n ?? ''}
          />
        </details>
      )}
    </section>
  );
}
