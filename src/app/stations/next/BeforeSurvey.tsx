/** A lake without a survey: dives that follow from its maps and what is expected of it. */

import { useEffect, useMemo, useState } from 'react';
import type { PlanWanted } from '../../plan-contract.ts';
import { Caution, Lead, Sentence } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { FIRST_WANTED, planDeskNow, setPlanDesk, usePlanDesk } from '../../state/plan-desk.ts';
import { keepStated, type StatedFields, statedOf, statedText } from '../../state/stated-fields.ts';
import { PlanForm } from './PlanForm.tsx';
import { Planned, PlanResult } from './PlanResult.tsx';
import { SavePlan } from './SavePlan.tsx';
import { StatedForm } from './StatedForm.tsx';

export function BeforeSurvey() {
  const { core, state } = useApp();
  const { work, judged } = state;
  const name = work?.name ?? '';
  const [fields, setFields] = useState<StatedFields>(() => statedOf(name));
  const [notices, setNotices] = useState<string[]>([]);
  const { wanted, made, busy } = usePlanDesk();
  useEffect(() => {
    setPlanDesk({ made: null, busy: false, wanted: FIRST_WANTED });
    setFields(statedOf(name));
    setNotices([]);
  }, [name]);
  const classes = useMemo(() => mappedClasses(judged), [judged]);
  const ask = async (wishes: PlanWanted): Promise<void> => {
    const stated = statedText(fields);
    if (!stated.ok) {
      setPlanDesk({ wanted: wishes, made: stated });
      return;
    }
    if (work === null) return;
    setPlanDesk({ wanted: wishes, busy: true });
    const told = await core
      .planStated(work.files, work.name, stated.text, wishes)
      .catch((error: Error) => ({ ok: false as const, why: error.message }));
    if (planDeskNow().wanted !== wishes) return;
    setNotices(told.ok ? told.notices : []);
    setPlanDesk({ made: told, busy: false });
  };
  const plan = made?.ok ? made.plan : null;
  return (
    <>
      {plan !== null && <Planned plan={plan} />}
      {plan === null && (
        <>
          <Sentence>
            There is no survey yet: dives can be planned from the maps and what is expected of the
            lake.
          </Sentence>
          <Lead>
            Outline, substrate and depth of the lake are needed, no table. What comes out: places on
            the map, sheets to print, and waypoints for the boat.
          </Lead>
          {made !== null && !made.ok && <Caution>There is no such plan: {made.why}.</Caution>}
        </>
      )}
      {plan !== null &&
        notices.map((notice) => <Caution key={notice}>{keptTogether(capital(notice))}.</Caution>)}
      {classes.length === 0 ? (
        <Caution>
          The map of the substrate is missing: it is brought in at the Survey station.
        </Caution>
      ) : (
        <>
          <StatedForm
            classes={classes}
            fields={fields}
            onChange={(now) => {
              setFields(now);
              keepStated(name, now);
            }}
          />
          <PlanForm wanted={wanted} plan={plan} busy={busy} alone onAsk={(w) => void ask(w)} />
        </>
      )}
      {plan !== null && (
        <>
          <PlanResult plan={plan} />
          <SavePlan plan={plan} files={() => core.statedFiles()} />
        </>
      )}
    </>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** In the order of the analysis. */
function mappedClasses(judged: ReturnType<typeof useApp>['state']['judged']): string[] {
  if (judged === null) return [];
  const mapped = new Set((judged.lake.substrate ?? []).flatMap((patch) => patch.substrate));
  return judged.analysis.substrates.filter((c) => mapped.has(c));
}
