/** The plan that is looked at, beside the page's state: the station asks for it, the map draws it. */

import { useSyncExternalStore } from 'react';
import type { PlanFile } from '../../../shared/planning.ts';
import type { Made } from '../area-contract.ts';
import type { PlanWanted } from '../plan-contract.ts';

export interface PlanDesk {
  wanted: PlanWanted;
  /** null until there is one */
  made: Made<{ plan: PlanFile }> | null;
  busy: boolean;
}

/** As the survey was dived, as a survey of its own: so many dives are what most crews have in a week. */
export const FIRST_WANTED: PlanWanted = {
  target: { kind: 'transects', transects: 20 },
  added: false,
  allocation: 'best',
  seed: null,
  dive: {},
  sections: null,
  startDepthsM: null,
};

let desk: PlanDesk = { wanted: FIRST_WANTED, made: null, busy: false };
const listeners = new Set<() => void>();

export function setPlanDesk(change: Partial<PlanDesk>): void {
  desk = { ...desk, ...change };
  for (const listener of listeners) listener();
}

export function usePlanDesk(): PlanDesk {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => desk,
    () => desk,
  );
}

export function planDeskNow(): PlanDesk {
  return desk;
}
