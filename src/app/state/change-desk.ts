/**
 * Surveys that the open one is held against, what is asked about them, and what came out. They stay while the page does, whatever
 * station is shown; nothing here changes the open survey. The work is done in a worker of its own, so that the map answers meanwhile.
 */

import * as Comlink from 'comlink';
import { useSyncExternalStore } from 'react';
import type { ChangeFile } from '../../../shared/change.ts';
import type { TreatmentArea } from '../../../shared/survey.ts';
import type { ChangeAsked, ChangeView, ChangeWorker, NamedSurvey } from '../change-contract.ts';
import type { AnswerDesk } from './answer-desk.ts';
import { sameFiles } from './files.ts';
import { type OwnCore, ownCore } from './spawn-core.ts';

export interface ChangeState extends Pick<ChangeAsked, 'answers' | 'accepted'> {
  /** as it was last held against the others; null: none is */
  open: NamedSurvey | null;
  others: readonly NamedSurvey[];
  /** treatment areas of the open survey, or of all once they were read, and the names of those that were treated between the surveys */
  areas: readonly TreatmentArea[];
  treated: ReadonlySet<string>;
  /** what is being done; null: nothing */
  step: string | null;
  /** the survey that it is done for; null: for all */
  about: string | null;
  /** whether a comparison was cancelled since the last change of what is asked */
  cancelled: boolean;
  /** null before the first comparison */
  view: ChangeView | null;
  /** what kept it from going on, in a sentence */
  trouble: string | null;
}

export const NONE_OPEN: ChangeState = {
  open: null,
  others: [],
  areas: [],
  treated: new Set(),
  answers: new Map(),
  accepted: new Set(),
  step: null,
  about: null,
  cancelled: false,
  view: null,
  trouble: null,
};

type Bench = OwnCore<ChangeWorker>;

export interface ChangeDesk extends AnswerDesk {
  get(): ChangeState;
  subscribe(listener: () => void): () => void;
  /** The open survey as it is now; another one than before leaves nothing of what was. */
  hold(open: NamedSurvey, areas: readonly TreatmentArea[]): void;
  add(other: NamedSurvey): void;
  remove(name: string): void;
  /** whether the area of this name was treated between the surveys */
  treat(name: string, treated: boolean): void;
  /** Gives up what is being done. */
  cancel(): void;
  /** Once more what was cancelled. */
  again(): void;
  refuse(trouble: string): void;
  files(file: ChangeFile): Promise<Map<string, string>>;
  leave(): void;
}

export function changeDesk(start: () => Bench): ChangeDesk {
  let state = NONE_OPEN;
  let bench: Bench | null = null;
  /** only the last request counts */
  let turn = 0;
  /** areas of the open survey */
  let ownNames: ReadonlySet<string> = new Set();
  const listeners = new Set<() => void>();

  function set(change: Partial<ChangeState>): void {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  }

  /** A comparison under way takes long: it ends at once, with what was worked out of the surveys. */
  function stop(): void {
    turn += 1;
    if (state.step === null) return;
    bench?.end();
    bench = null;
  }

  /** The worker gives up an earlier one at its next step, and keeps what it knows of the surveys. */
  async function compare(): Promise<void> {
    turn += 1;
    const own = turn;
    const { open, others, answers, accepted } = state;
    if (open === null || others.length === 0) {
      stop();
      return set({ step: null, about: null, cancelled: false, view: null, trouble: null });
    }
    set({ step: 'read', about: null, cancelled: false, trouble: null });
    // who listens may have asked for another meanwhile
    if (own !== turn) return;
    bench ??= start();
    const { core, broken } = bench;
    const treated = state.areas.filter(({ name }) => state.treated.has(name));
    const tell = Comlink.proxy((step: string, about: string | null) => {
      if (own === turn && (step !== state.step || about !== state.about)) set({ step, about });
    });
    try {
      const asked = { answers, accepted, treated, turn: own };
      const view = await Promise.race([
        core.compareSurveys([open, ...others], asked, tell),
        broken,
      ]);
      if (own !== turn) return;
      if (!view.ok) return set({ step: null, view });
      const names = new Set(view.places.map(({ name }) => name));
      const kept = new Set([...state.treated].filter((name) => names.has(name)));
      set({ step: null, view, areas: view.places, treated: kept });
    } catch (error) {
      if (own !== turn) return;
      bench?.end();
      bench = null;
      set({ step: null, view: null, trouble: `${(error as Error).message}.` });
    }
  }

  function change(to: Partial<ChangeState>): void {
    set(to);
    void compare();
  }

  function leave(): void {
    stop();
    bench?.end();
    bench = null;
    set(NONE_OPEN);
  }

  return {
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    hold(open, areas) {
      const before = state.open;
      if (before !== null && before.name === open.name && sameFiles(before.files, open.files))
        return;
      if (before !== null && before.name !== open.name) leave();
      // those of other surveys stay until all are read again
      const mine = new Set(areas.map(({ name }) => name));
      const theirs = state.areas.filter(({ name }) => !ownNames.has(name) && !mine.has(name));
      ownNames = mine;
      const all = [...areas, ...theirs];
      const names = new Set(all.map(({ name }) => name));
      const treated = new Set([...state.treated].filter((name) => names.has(name)));
      change({ open, areas: all, treated });
    },
    add({ name, files }) {
      const taken = new Set([state.open?.name, ...state.others.map((other) => other.name)]);
      change({ others: [...state.others, { name: apartFrom(name, taken), files }] });
    },
    remove(name) {
      change({ others: state.others.filter((other) => other.name !== name) });
    },
    treat(name, treated) {
      const names = new Set(state.treated);
      if (treated) names.add(name);
      else names.delete(name);
      change({ treated: names });
    },
    answer(id, answer) {
      const accepted = new Set(state.accepted);
      accepted.delete(id);
      change({ answers: new Map([...state.answers, [id, answer]]), accepted });
    },
    accept(id) {
      const answers = new Map(state.answers);
      answers.delete(id);
      change({ accepted: new Set([...state.accepted, id]), answers });
    },
    withdraw(id) {
      const answers = new Map(state.answers);
      answers.delete(id);
      change({ answers, accepted: new Set([...state.accepted].filter((other) => other !== id)) });
    },
    cancel() {
      if (state.step === null) return;
      stop();
      set({ step: null, about: null, cancelled: true, view: null });
    },
    again: () => void compare(),
    refuse: (trouble) => set({ trouble }),
    async files(file) {
      bench ??= start();
      return Promise.race([bench.core.changeFiles(file), bench.broken]);
    },
    leave,
  };
}

/** `pond`, or `pond (2)` where a survey is called that already. */
function apartFrom(name: string, taken: ReadonlySet<string | undefined>): string {
  for (let n = 1; ; n++) {
    const own = n === 1 ? name : `${name} (${n})`;
    if (!taken.has(own)) return own;
  }
}

/** The one of the page. */
export const change = changeDesk(() => ownCore<ChangeWorker>());

export function useChange(): ChangeState {
  return useSyncExternalStore(change.subscribe, change.get, change.get);
}
