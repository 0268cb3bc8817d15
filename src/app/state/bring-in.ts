/**
 * Files of others on their way into a survey: what was given, what is asked, what was answered. It stands beside the open
 * survey, which nothing here changes until everything is answered and brought in.
 */

import { useSyncExternalStore } from 'react';
import type { Answer, GivenFile } from '../../../shared/importing.ts';
import { MOST_SURVEY_BYTES } from '../../../shared/survey-files.ts';
import type { Work } from '../contract.ts';
import type { AnswersGiven, GivenView, ImportedView, ImportWorker } from '../import-contract.ts';
import { sameBytes } from './files.ts';
import { type OwnCore, ownCore } from './spawn-core.ts';

export interface BringIn extends Pick<AnswersGiven, 'answers' | 'accepted'> {
  /** it stands in the place of the stations */
  shown: boolean;
  files: readonly GivenFile[];
  /** of the survey that will be made */
  name: string;
  /** the open survey that the files join; null: they become a survey of their own */
  joins: Work | null;
  busy: 'reading' | 'asking' | null;
  recognised: GivenView['recognised'];
  /** of the answers as they were when it was last made; null before the first */
  imported: ImportedView | null;
  /** what kept it from going on, in a sentence */
  trouble: string | null;
}

export const NOTHING: BringIn = {
  shown: false,
  files: [],
  name: '',
  joins: null,
  busy: null,
  recognised: [],
  imported: null,
  answers: new Map(),
  accepted: new Set(),
  trouble: null,
};

const USUAL_NAME = 'survey';

type Desk = OwnCore<ImportWorker>;

export type BringInDesk = ReturnType<typeof bringInDesk>;

export function bringInDesk(start: () => Desk) {
  let state = NOTHING;
  let desk: Desk | null = null;
  /** only the last request counts */
  let turn = 0;
  const listeners = new Set<() => void>();

  function set(change: Partial<BringIn>): void {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  }

  async function work(busy: 'reading' | 'asking', doing: (core: ImportWorker) => Promise<void>) {
    turn += 1;
    const own = turn;
    set({ busy, trouble: null });
    desk ??= start();
    try {
      await Promise.race([doing(desk.core), desk.broken]);
      if (own === turn) set({ busy: null });
    } catch (error) {
      if (own !== turn) return;
      desk?.end();
      desk = null;
      set({ busy: null, imported: null, trouble: (error as Error).message });
    }
  }

  async function apply(core: ImportWorker, own: number): Promise<void> {
    const { answers, accepted, name, joins } = state;
    const asked = { answers, accepted, acceptCertain: true };
    const imported = await core.importGiven(asked, joins?.name ?? (name || USUAL_NAME));
    if (own === turn) set({ imported });
  }

  function read(): void {
    void work('reading', async (core) => {
      const own = turn;
      const { recognised } = await core.readGiven([...withJoined(state)]);
      if (own !== turn) return;
      set({ recognised });
      await apply(core, own);
    });
  }

  function ask(): void {
    // where its worker broke, what it had read is gone
    if (desk === null) read();
    else void work('asking', (core) => apply(core, turn));
  }

  function leave(): void {
    turn += 1;
    desk?.end();
    desk = null;
    set(NOTHING);
  }

  return {
    get: (): BringIn => state,
    subscribe(listener: () => void): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },

    /** More files; the first ones begin it. @param open the survey on the screen, which they join unless told otherwise */
    async add(chosen: readonly File[], open: Work | null): Promise<void> {
      const begins = state.files.length === 0;
      set({ shown: true, ...(begins ? { joins: open, name: nameOf(chosen) } : {}) });
      const sizes = chosen.map(({ size }) => size);
      const before = state.files.reduce((sum, { bytes }) => sum + bytes.length, 0);
      if (sizes.reduce((sum, size) => sum + size, before) > MOST_SURVEY_BYTES) {
        set({
          trouble: `These files have more than ${MOST_SURVEY_BYTES / 1e6} MB, more than a survey may have.`,
        });
        return;
      }
      const files = new Map(state.files.map((file) => [file.name.toLowerCase(), file]));
      for (const file of chosen)
        files.set(file.name.toLowerCase(), {
          name: file.name,
          bytes: new Uint8Array(await file.arrayBuffer()),
        });
      set({ files: [...files.values()] });
      read();
    },
    remove(names: readonly string[]): void {
      set({ files: state.files.filter((file) => !names.includes(file.name)) });
      if (state.files.length === 0) leave();
      else read();
    },
    answer(id: string, answer: Answer): void {
      const accepted = new Set(state.accepted);
      accepted.delete(id);
      set({ answers: new Map([...state.answers, [id, answer]]), accepted });
      ask();
    },
    /** takes what is proposed */
    accept(id: string): void {
      const answers = new Map(state.answers);
      answers.delete(id);
      set({ accepted: new Set([...state.accepted, id]), answers });
      ask();
    },
    /** the question is open again */
    withdraw(id: string): void {
      const answers = new Map(state.answers);
      answers.delete(id);
      const accepted = new Set([...state.accepted].filter((other) => other !== id));
      set({ answers, accepted });
      ask();
    },
    rename(name: string): void {
      set({ name });
    },
    join(joins: Work | null): void {
      set({ joins });
      read();
    },
    show(): void {
      set({ shown: true });
    },
    hide(): void {
      if (state.shown) set({ shown: false });
    },
    leave,
    /** The survey that was made; corrections of the open one go along for files that are still what they were. */
    finished(): Work | null {
      const { imported, joins, name } = state;
      if (imported === null || imported.files === null) return null;
      const { files } = imported;
      const kept = (file: string): boolean => {
        const [before, now] = [joins?.files.get(file), files.get(file)];
        return before !== undefined && now !== undefined && sameBytes(before, now);
      };
      return {
        name: joins?.name ?? (name.trim() || USUAL_NAME),
        files,
        edits: joins === null ? [] : joins.edits.filter((edit) => kept(edit.file)),
      };
    },
  };
}

/** The given files stand before those of the survey that they join. */
function withJoined({ files, joins }: BringIn): GivenFile[] {
  const given = new Set(files.map(({ name }) => name));
  const others = [...(joins?.files ?? [])].filter(([name]) => !given.has(name));
  return [...files, ...others.map(([name, bytes]) => ({ name, bytes }))];
}

/** Of the folder or the zip that the files came in. */
function nameOf(files: readonly File[]): string {
  const [first] = files;
  const folder = first?.webkitRelativePath.split('/')[0];
  if (folder) return folder;
  return files.length === 1 ? first.name.replace(/\.[^.]*$/, '') : '';
}

/** The one of the page. */
export const bringIn = bringInDesk(() => ownCore<ImportWorker>());

export function useBringIn(): BringIn {
  return useSyncExternalStore(bringIn.subscribe, bringIn.get);
}
