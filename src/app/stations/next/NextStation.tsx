/** The Next dives station: how precise so many dives would be, where they lie, other ways, a few more, and the plan as files. */

import '../areas/areas.css';
import './next.css';
import { useCallback, useEffect } from 'react';
import type { PlanFile } from '../../../../shared/planning.ts';
import type { AppState } from '../../contract.ts';
import type { PlanWanted } from '../../plan-contract.ts';
import { Caution, Sentence } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { planDeskNow, setPlanDesk, usePlanDesk } from '../../state/plan-desk.ts';
import { NoEstimate } from '../NoEstimate.tsx';
import { AtTheRamp } from './AtTheRamp.tsx';
import { BeforeSurvey } from './BeforeSurvey.tsx';
import { OtherWays } from './OtherWays.tsx';
import { checkOf, PlanCheck } from './PlanCheck.tsx';
import { PlanForm } from './PlanForm.tsx';
import { Planned, PlanResult } from './PlanResult.tsx';
import { SavePlan } from './SavePlan.tsx';

export function NextStation() {
  const { state } = useApp();
  return (
    <div className="station next-station">
      {state.result !== null ? (
        <Planning />
      ) : isBeforeSurvey(state) ? (
        <BeforeSurvey />
      ) : (
        <NoEstimate subject="lake" />
      )}
    </div>
  );
}

/** A lake with an outline where nothing was dived yet. */
function isBeforeSurvey({ run, judged }: Pick<AppState, 'run' | 'judged'>): boolean {
  return (
    run.state !== 'working' &&
    judged !== null &&
    judged.lake.outline !== null &&
    judged.survey.transects.length === 0
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

/** `wanted`: what the plan was made for; null while another one is */
function More({ plan, wanted }: { plan: PlanFile; wanted: PlanWanted | null }) {
  const { state, core } = useApp();
  const check = checkOf(state, wanted);
  return (
    <>
      <PlanResult plan={plan} />
      <OtherWays plan={plan} />
      <PlanCheck plan={{ ...plan, check }} wanted={wanted} />
      <SavePlan plan={{ ...plan, check }} files={() => core.planFiles(check)} />
    </>
  );
}
