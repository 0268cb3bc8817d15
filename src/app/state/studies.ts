/**
 * Long work that is asked for and is no part of an estimate: bootstrap, simulation study, variants estimated again, the check of
 * a plan, a few more dives. In a worker of its own, so that page and estimate go on meanwhile; cancelled by ending that worker, which leaves what came out before.
 */

import * as Comlink from 'comlink';
import type { Dispatch } from 'react';
import type { AreaRequest } from '../../../shared/areas.ts';
import { parseVariants, VARIANTS_FILE, type VariantOutcome } from '../../../shared/variants.ts';
import type { CoreWorker, Work } from '../contract.ts';
import type { PlanWanted } from '../plan-contract.ts';
import type { StudyKind } from '../study-contract.ts';
import { ANALYSIS_FILE, decode, withChoices } from './edits.ts';
import type { Action, PageState } from './reducer.ts';
import { updateVariant } from './variant-edits.ts';

export interface StudyRunner {
  /** one at a time: another one that runs is given up */
  start(kind: 'bootstrap' | 'rehearsal', work: Work, count: number): void;
  proposeAreas(work: Work, request: AreaRequest): void;
  /** the plan of these wishes on so many simulated surveys */
  checkPlan(work: Work, wanted: PlanWanted, surveys: number): void;
  /** what a few more dives would bring, for each of the goals (a CV) */
  fewMore(work: Work, goals: readonly number[]): void;
  /** estimates the variants of these names from the survey as it is, and keeps what they give */
  updateVariants(work: Work, names: readonly string[]): void;
  cancel(): void;
}

type Core = Comlink.Remote<CoreWorker>;
type Tell = (step: string, share: number) => void;

export function startStudies(
  spawn: () => Worker,
  dispatch: Dispatch<Action>,
  state: () => PageState,
): StudyRunner {
  let running: Worker | null = null;

  function cancel(): void {
    if (running === null) return;
    running.terminate();
    running = null;
    dispatch({ type: 'studying', running: null });
  }

  /** Does the work in a new worker; what it hands back is told, unless it was given up meanwhile. */
  async function run(kind: StudyKind, study: (core: Core, tell: Tell) => Promise<Action[]>) {
    cancel();
    const own = spawn();
    running = own;
    const broken = new Promise<never>((_, reject) => {
      own.addEventListener('error', (event) =>
        reject(new Error(event.message || 'the worker could not start')),
      );
    });
    let shown = '';
    const tell: Tell = (step, share) => {
      const now = `${step} ${Math.round(100 * share)}`; // a change that cannot be seen is not drawn
      if (running !== own || now === shown) return;
      shown = now;
      dispatch({ type: 'studying', running: { kind, step, share } });
    };
    tell('read', 0);
    try {
      const told = await Promise.race([study(Comlink.wrap<CoreWorker>(own), tell), broken]);
      if (running !== own) return;
      cancel();
      for (const action of told) dispatch(action);
    } catch (error) {
      if (running !== own) return;
      cancel();
      dispatch({ type: 'studyFailed', kind, why: (error as Error).message });
    }
  }

  return {
    cancel,
    start(kind, { files, name }, count) {
      void run(kind, async (core, tell) => {
        const done = await (kind === 'bootstrap'
          ? core.bootstrap(files, name, count, Comlink.proxy(tell))
          : core.rehearse(files, name, count, Comlink.proxy(tell)));
        if (!done.ok)
          throw new Error(
            done.findings.findLast((f) => f.severity === 'error')?.message ??
              'there is no estimate to begin from',
          );
        return [{ type: 'studied', study: { ...done.study, files } }];
      });
    },
    proposeAreas({ files, name }, request) {
      void run('areas', async (core, tell) => {
        const done = await core.proposeAreas(files, name, request, Comlink.proxy(tell));
        if (!done.ok) throw new Error(done.why);
        return [{ type: 'studied', study: { kind: 'areas', areas: done.areas, files } }];
      });
    },
    checkPlan({ files, name }, wanted, surveys) {
      void run('check', async (core, tell) => {
        const done = await core.checkPlan(files, name, wanted, surveys, Comlink.proxy(tell));
        if (!done.ok) throw new Error(done.why);
        return [{ type: 'studied', study: { kind: 'check', check: done.check, wanted, files } }];
      });
    },
    fewMore({ files, name }, goals) {
      void run('few', async (core, tell) => {
        const done = await core.fewMoreOf(files, name, goals, Comlink.proxy(tell));
        if (!done.ok) throw new Error(done.why);
        return [{ type: 'studied', study: { kind: 'few', few: done.few, files } }];
      });
    },
    updateVariants(work, names) {
      void run('variants', async (core, tell) => {
        const outcomes = new Map<string, VariantOutcome | null>();
        const asked = variantsOf(work).filter((v) => names.includes(v.name));
        for (const [i, { name, choices }] of asked.entries()) {
          tell('variants', i / asked.length);
          const text = new TextEncoder().encode(withChoices(work, choices));
          const files = new Map([...work.files, [ANALYSIS_FILE, text]]);
          outcomes.set(name, await core.outcome(files, work.name));
        }
        return keepOutcomes(state().work, outcomes);
      });
    },
  };
}

/** The list may have changed meanwhile: each is found again by its name. */
function keepOutcomes(
  work: Work | null,
  outcomes: ReadonlyMap<string, VariantOutcome | null>,
): Action[] {
  const at = new Date().toISOString();
  return (work === null ? [] : variantsOf(work)).flatMap((variant) => {
    const outcome = outcomes.get(variant.name);
    return outcome === undefined
      ? []
      : [{ type: 'edit' as const, edit: { ...updateVariant(variant, outcome), at } }];
  });
}

function variantsOf({ files }: Work) {
  const file = files.get(VARIANTS_FILE);
  return file === undefined ? [] : parseVariants(decode(file)).variants;
}
