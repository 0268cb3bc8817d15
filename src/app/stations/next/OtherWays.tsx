/** The same dive minutes spent in other ways, worked out when they are asked for. */

import { useEffect, useState } from 'react';
import type { PlanAlternative, PlanFile } from '../../../../shared/planning.ts';
import { readPlan } from '../../../present/plan.ts';
import { DataTable, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';

export function OtherWays({ plan }: { plan: PlanFile }) {
  const { state, core } = useApp();
  const [ways, setWays] = useState<PlanAlternative[] | 'busy' | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was worked out is of the plan before
  useEffect(() => setWays(null), [plan]);
  if (plan.minutes === null) return null;
  const units = unitSystem(state.units);
  const ask = (): void => {
    setWays('busy');
    void core.planAlternatives().then(setWays, () => setWays(null));
  };
  if (ways === null || ways === 'busy')
    return (
      <p className="no-print">
        <button type="button" className="button" disabled={ways === 'busy'} onClick={ask}>
          {ways === 'busy' ? 'Comparing …' : 'Compare other ways to spend the same time'}
        </button>
      </p>
    );
  const { head, rows, notes } = readPlan({ ...plan, alternatives: ways }, units).alternatives;
  return (
    <div role="status">
      <DataTable
        caption="Other ways to spend the same time"
        columns={head.map((title, i) => ({
          title,
          ...(i < 2 ? {} : { align: 'right' as const }),
          cell: (row: string[]) => row[i],
        }))}
        rows={rows}
        keyOf={(row) => row.join(' ')}
      />
      {notes.map((note) => (
        <p key={note} className="small quiet">
          {keptTogether(note)}
        </p>
      ))}
    </div>
  );
}
