/** The plan checked on simulated surveys, each fitted again, while the page goes on; and how to end that. */

import type { PlanCheck as Check, PlanFile } from '../../../../shared/planning.ts';
import { readPlan } from '../../../present/plan.ts';
import type { AppState } from '../../contract.ts';
import type { PlanWanted } from '../../plan-contract.ts';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { sameFiles } from '../../state/files.ts';
import { Running, withoutVariants } from '../density/Studies.tsx';

/** With a hundred the simulated CV has an error of 7 %. */
const SURVEYS = 100;

/** The last check, where it was of this plan and of the survey as it is. */
export function checkOf(
  { studies: { check: study }, work }: Pick<AppState, 'studies' | 'work'>,
  wanted: PlanWanted | null,
): Check | null {
  if (study?.kind !== 'check' || work === null) return null;
  const isThis =
    JSON.stringify(study.wanted) === JSON.stringify(wanted) &&
    sameFiles(withoutVariants(study.files), withoutVariants(work.files));
  return isThis ? study.check : null;
}

export function PlanCheck({ plan, wanted }: { plan: PlanFile; wanted: PlanWanted | null }) {
  const { state, actions } = useApp();
  const { running, problem } = state.studies;
  if (plan.expected_cv === null) return null;
  const words = plan.check === null ? null : readPlan(plan).check;
  return (
    <div className="plan-check">
      {running?.kind === 'check' ? (
        <Running running={running} onCancel={actions.cancelStudy} />
      ) : words === null ? (
        <p className="no-print">
          <button
            type="button"
            className="button"
            disabled={running !== null || wanted === null}
            onClick={() => wanted !== null && actions.checkPlan(wanted, SURVEYS)}
          >
            Check the plan on {SURVEYS} simulated surveys
          </button>
        </p>
      ) : (
        <p role="status">{keptTogether(words)}</p>
      )}
      {problem?.kind === 'check' && (
        <p role="alert" className="small">
          There is no check: {problem.why}.
        </p>
      )}
    </div>
  );
}
