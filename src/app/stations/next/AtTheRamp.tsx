/** At the ramp: what a few more dives, added to the survey as it is typed in so far, are expected to bring. */

import { useEffect, useId, useMemo, useState } from 'react';
import { term } from '../../../../shared/glossary.ts';
import type { FewMore } from '../../../../shared/planning.ts';
import { readFewMore } from '../../../present/few-more.ts';
import type { Made } from '../../area-contract.ts';
import { DataTable } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { useGoal } from '../../state/goal.ts';
import { NumberField } from '../areas/NumberField.tsx';

export function AtTheRamp() {
  const { core } = useApp();
  const id = useId();
  const [goal, setGoal] = useGoal();
  const [made, setMade] = useState<Made<{ few: FewMore }> | null>(null);
  useEffect(() => {
    let live = true;
    const told = (value: Made<{ few: FewMore }>): void => {
      if (live) setMade(value);
    };
    core.fewMore(goal / 100).then(told, (error: Error) => told({ ok: false, why: error.message }));
    return () => {
      live = false;
    };
  }, [core, goal]);
  const read = useMemo(() => (made?.ok ? readFewMore(made.few) : null), [made]);
  return (
    <section className="plan-ramp" aria-labelledby={id}>
      <h2 id={id}>At the ramp: how many more today</h2>
      <NumberField
        label={`The ${term('cv')} that was set as goal`}
        unit="%"
        value={goal}
        least={{ above: 0 }}
        onChange={(x) => x !== null && setGoal(x)}
      />
      {made !== null && !made.ok && <p className="small">{made.why}.</p>}
      {read !== null && (
        <>
          <p role="status" className="plan-said">
            {keptTogether(read.sentence)}
          </p>
          <p className="small quiet">{read.rule}</p>
          <details>
            <summary>One to ten more</summary>
            <DataTable
              caption="What more dives are expected to bring"
              captionHidden
              columns={read.head.map((title, i) => ({
                title,
                align: 'right' as const,
                cell: (row: string[]) => row[i],
              }))}
              rows={read.rows}
              keyOf={([n]) => n ?? ''}
            />
          </details>
        </>
      )}
    </section>
  );
}
