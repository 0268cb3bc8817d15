/** The plan checked on simulated surveys, each fitted again. */

import * as Comlink from 'comlink';
import { useEffect, useState } from 'react';
import type { PlanCheck as Check, PlanFile } from '../../../../shared/planning.ts';
import { readPlan } from '../../../present/plan.ts';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';

/** With a hundred the simulated CV has an error of 7 %. */
const SURVEYS = 100;

export function PlanCheck({ plan }: { plan: PlanFile }) {
  const { core } = useApp();
  const [check, setCheck] = useState<Check | null>(null);
  const [share, setShare] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the check is of the plan before
  useEffect(() => {
    setCheck(null);
    setProblem(null);
  }, [plan]);
  if (plan.expected_cv === null) return null;
  const ask = async (): Promise<void> => {
    setShare(0);
    try {
      const made = await core.checkPlan(
        SURVEYS,
        Comlink.proxy((_: string, done: number) => setShare(done)),
      );
      if (made.ok) setCheck(made.check);
      else setProblem(made.why);
    } catch (error) {
      setProblem((error as Error).message);
    } finally {
      setShare(null);
    }
  };
  const words = check === null ? null : readPlan({ ...plan, check }).check;
  return (
    <div className="plan-check">
      {words === null ? (
        <p className="no-print">
          <button
            type="button"
            className="button"
            disabled={share !== null}
            onClick={() => void ask()}
          >
            {share === null
              ? `Check the plan on ${SURVEYS} simulated surveys`
              : `Simulating surveys, ${Math.round(100 * share)} %`}
          </button>
        </p>
      ) : (
        <p role="status">{keptTogether(words)}</p>
      )}
      {problem !== null && (
        <p role="alert" className="small">
          There is no check: {problem}.
        </p>
      )}
    </div>
  );
}
