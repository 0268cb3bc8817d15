/** A plan in the column: its sentence and what it rests on; its curve, and where its dives lie. */

import { useMemo } from 'react';
import type { PlanFile } from '../../../../shared/planning.ts';
import { readPlan } from '../../../present/plan.ts';
import { curveTable, precisionPicture } from '../../../present/precision-curve.ts';
import { PrecisionCurve } from '../../plots/PrecisionCurve.tsx';
import { Caution, DataTable, Lead, Said, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';

export function Planned({ plan }: { plan: PlanFile }) {
  const { state } = useApp();
  const units = unitSystem(state.units);
  const read = useMemo(() => readPlan(plan, units), [plan, units]);
  const [before, strong, after] = read.sentence;
  return (
    <>
      <Sentence>
        <Said text={before} />
        <b>{keptTogether(strong)}</b>
        {keptTogether(after)}
      </Sentence>
      {read.lead.map((line) => (
        <Lead key={line}>{keptTogether(line)}</Lead>
      ))}
      {read.cautions.map((line) => (
        <Caution key={line}>{line}</Caution>
      ))}
    </>
  );
}

export function PlanResult({ plan }: { plan: PlanFile }) {
  const { state } = useApp();
  const units = unitSystem(state.units);
  const read = useMemo(() => readPlan(plan, units), [plan, units]);
  const picture = useMemo(() => precisionPicture(plan), [plan]);
  const table = useMemo(() => curveTable(plan), [plan]);
  return (
    <>
      {picture !== null && <PrecisionCurve picture={picture} table={table} />}
      {read.curve.map((line) => (
        <p key={line} className="small">
          {keptTogether(line)}
        </p>
      ))}
      <DataTable
        caption="Where"
        columns={read.zones.head.map((title, i) => ({
          title,
          ...(i < 2 ? {} : { align: 'right' as const }),
          cell: (row: string[]) => row[i],
        }))}
        rows={read.zones.rows}
        keyOf={([section, , depth]) => `${section} ${depth}`}
      />
      {read.zones.notes.map((note) => (
        <p key={note} className="small quiet">
          {keptTogether(note)}
        </p>
      ))}
    </>
  );
}
