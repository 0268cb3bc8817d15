/** The Next dives station: how precise so many dives would be, where they lie, other ways, a few more, and the plan as files. */

import '../areas/areas.css';
import './next.css';
import { useCallback, useEffect, useMemo } from 'react';
import type { PlanFile } from '../../../../shared/planning.ts';
import { readPlan } from '../../../present/plan.ts';
import { curveTable, precisionPicture } from '../../../present/precision-curve.ts';
import type { PlanWanted } from '../../plan-contract.ts';
import { PrecisionCurve } from '../../plots/PrecisionCurve.tsx';
import { Caution, DataTable, Lead, Said, Sentence, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { planDeskNow, setPlanDesk, usePlanDesk } from '../../state/plan-desk.ts';
import { NoEstimate } from '../NoEstimate.tsx';
import { AtTheRamp } from './AtTheRamp.tsx';
import { OtherWays } from './OtherWays.tsx';
import { checkOf, PlanCheck } from './PlanCheck.tsx';
import { PlanForm } from './PlanForm.tsx';
import { SavePlan } from './SavePlan.tsx';

export function NextStation() {
  const { state } = useApp();
  return (
    <div className="station next-station">
      {state.result === null ? <NoEstimate subject="lake" /> : <Planning />}
    </div>
  );
}

function Planning() {
  const { core } = useApp();
  const { wanted, made, busy } = usePlanDesk();
  const ask = useCallback(
    async (wishes: PlanWanted) => {
      setPlanDesk({ wanted: wishes, busy: true });
      const told = await core
        .planDives(wishes)
        .catch((error: Error) => ({ ok: false as const, why: error.message }));
      // another plan may have been asked for meanwhile
      if (planDeskNow().wanted === wishes) setPlanDesk({ made: told, busy: false });
    },
    [core],
  );
  useEffect(() => {
    setPlanDesk({ made: null });
    void ask(planDeskNow().wanted);
  }, [ask]);
  return (
    <>
      {made === null ? (
        <Sentence>Looking at places for dives …</Sentence>
      ) : made.ok ? (
        <Planned plan={made.plan} />
      ) : (
        <>
          <Sentence>There is no such plan.</Sentence>
          <Caution>{made.why}.</Caution>
        </>
      )}
      <PlanForm wanted={wanted} plan={made?.ok ? made.plan : null} busy={busy} onAsk={ask} />
      {made?.ok && <More plan={made.plan} wanted={busy ? null : wanted} />}
      <AtTheRamp />
    </>
  );
}

function Planned({ plan }: { plan: PlanFile }) {
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

/** `wanted`: what the plan was made for; null while another one is */
function More({ plan, wanted }: { plan: PlanFile; wanted: PlanWanted | null }) {
  const { state } = useApp();
  const check = checkOf(state, wanted);
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
      <OtherWays plan={plan} />
      <PlanCheck plan={{ ...plan, check }} wanted={wanted} />
      <SavePlan plan={{ ...plan, check }} />
    </>
  );
}
