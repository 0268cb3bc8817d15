/** Next dives before any survey: from the maps of the open one and what is stated. */

import type { PlanFile } from '../../../shared/planning.ts';
import { planStated } from '../../pipeline/plan-stated.ts';
import type { PlanLake } from '../../present/plan-picture.ts';
import type { PlanWorker } from '../plan-contract.ts';
import { planFolder } from './plan-folder.ts';

/** What the form writes is called in findings. */
const STATED_FILE = 'stated.json';

let last: { plan: PlanFile; lake: PlanLake; files: Map<string, Uint8Array> } | null = null;

export const statedBench: Pick<PlanWorker, 'planStated' | 'statedFiles'> = {
  async planStated(files, name, stated, wishes) {
    const given = { name: STATED_FILE, bytes: new TextEncoder().encode(stated) };
    const asked = { ...wishes, noDive: null, surveys: 0 };
    const done = await planStated({ name, files }, given, asked);
    const told = (severity: string): string[] =>
      done.findings.filter((f) => f.severity === severity).map((f) => f.message);
    if (!done.ok) return { ok: false, why: told('error').join('; ') };
    last = { plan: done.plan, lake: done.result, files };
    return { ok: true, plan: done.plan, notices: told('notice') };
  },
  async statedFiles() {
    if (last === null) throw new Error('no dives are planned yet');
    return planFolder(last.plan, last.files, last.lake);
  },
};
