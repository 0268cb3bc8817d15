/** Errors and notices by kind; choosing one shows its cell in the table and its place on the map. */

import { lazy, Suspense, useMemo, useState } from 'react';
import { CHOICES } from '../../../../shared/analysis.ts';
import { type Finding, findingPlace } from '../../../../shared/findings.ts';
import { gloss, labels, term } from '../../../../shared/glossary.ts';
import { repairsFor } from '../../../../shared/repairs.ts';
import { type FindingKind, kindsOf, readNotices } from '../../../present/notices.ts';
import type { JudgedView } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { ANALYSIS_FILE } from '../../state/edits.ts';
import { CellEditor } from './CellEditor.tsx';
import { Repairs } from './Repairs.tsx';

const Remedies = lazy(() => import('./Remedies.tsx').then((m) => ({ default: m.Remedies })));

/** More kinds than this stand behind a button. */
const SHOWN = 12;

export function FindingList({ judged }: { judged: JudgedView }) {
  const { findings } = judged;
  const errors = useMemo(
    () => kindsOf(findings).filter(({ severity }) => severity === 'error'),
    [findings],
  );
  const notices = useMemo(() => readNotices(findings), [findings]);
  return (
    <>
      {errors.length > 0 && (
        <section aria-labelledby="errors-title">
          <h2 id="errors-title">{labels('error')}</h2>
          <p className="small quiet">
            An {term('error')} {gloss('error')}.
          </p>
          <Kinds kinds={errors} judged={judged} />
        </section>
      )}
      {notices.count > 0 && (
        <details className="notices" open={errors.length === 0 && notices.count <= 3}>
          <summary>
            <h2 className="inline-title">{notices.counted}</h2>
          </summary>
          <p className="small quiet">
            A {term('notice')} {gloss('notice')}.
          </p>
          <Kinds kinds={notices.kinds} judged={judged} />
        </details>
      )}
    </>
  );
}

function Kinds({ kinds, judged }: { kinds: FindingKind[]; judged: JudgedView }) {
  const [all, setAll] = useState(false);
  const shown = all ? kinds : kinds.slice(0, SHOWN);
  return (
    <>
      <ul className="plain-list findings">
        {shown.map((kind) => (
          <Kind key={kind.indices[0]} kind={kind} judged={judged} />
        ))}
      </ul>
      {kinds.length > shown.length && (
        <button type="button" className="link" onClick={() => setAll(true)}>
          Show all {kinds.length} kinds
        </button>
      )}
    </>
  );
}

/** The first of a kind, the others like it folded away below until one of them is chosen, here or on the map. */
function Kind({ kind, judged }: { kind: FindingKind; judged: JudgedView }) {
  const { focus } = useApp().state;
  const [first, ...others] = kind.indices;
  if (first === undefined) return null;
  const chosen = focus.finding !== null && others.includes(focus.finding);
  return (
    <li className={`finding ${kind.severity}`}>
      <One index={first} judged={judged} />
      {kind.more !== null && (
        <details className="small more-like-it" open={chosen || undefined}>
          <summary>{kind.more}</summary>
          <ul className="plain-list">
            {others.map((index) => (
              <li key={index}>
                <One index={index} judged={judged} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}

function One({ index, judged }: { index: number; judged: JudgedView }) {
  const { state, actions } = useApp();
  const finding = judged.findings[index];
  if (finding === undefined) return null;
  const chosen = state.focus.finding === index;
  return (
    <>
      <button
        type="button"
        className="finding-button"
        aria-pressed={chosen}
        onClick={() =>
          actions.setFocus({
            finding: chosen ? null : index,
            transect: chosen ? null : transectOf(finding, judged),
          })
        }
      >
        <b>{findingPlace(finding)}</b>
        <span>{finding.message}</span>
      </button>
      {finding.table === ANALYSIS_FILE && finding.severity === 'error' && (
        <Suspense fallback={null}>
          <Remedies finding={finding} />
        </Suspense>
      )}
      <Repairs repairs={repairsFor(finding, judged.repairs ?? [])} />
      {chosen && isChoice(finding) && finding.column !== null && (
        <CellEditor
          place={{ file: ANALYSIS_FILE, row: null, column: finding.column }}
          onDone={() => actions.setFocus({ finding: null })}
        />
      )}
    </>
  );
}

/** A value of analysis.json that can be typed. */
function isChoice({ table, column }: Finding): boolean {
  return table === ANALYSIS_FILE && CHOICES.some(({ path }) => path === column);
}

/** The transect that a row of a table belongs to. */
export function transectOf({ table, row }: Finding, { sheets }: JudgedView): string | null {
  const sheet = sheets.find((s) => s.file === table);
  const column = sheet?.header.findIndex((name) => name.toLowerCase() === 'transect') ?? -1;
  return sheet?.rows.find((r) => r.row === row)?.cells[column] ?? null;
}
