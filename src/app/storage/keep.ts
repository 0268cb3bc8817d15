/**
 * Surveys kept in this browser (IndexedDB): what is on the screen survives a browser that is killed. Files are stored each
 * by itself, so that a corrected cell does not write a large map again.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Edit, LogDraft, RecentWork, Work } from '../contract.ts';

/** A survey that was not opened for so many others is forgotten, unless it has changes. */
const MOST_KEPT = 12;

/**
 * Of what is kept. It rises with every field that an earlier release would drop, for releases meet in one store: copies of the program
 * in one file lie beside each other for years.
 */
const FORMAT = 1;

interface Kept {
  id: string;
  name: string;
  at: string;
  edits: Edit[];
  headline: string | null;
  fileNames: string[];
  /** counts the saves; missing in what earlier releases kept */
  version?: number;
  servedFrom?: string;
  draft?: LogDraft;
}

/** Another tab has kept something since this one read the survey: writing would take that away. */
export class ChangedElsewhere extends Error {
  constructor() {
    super('another tab has changed this survey since');
  }
}

/** A newer release has kept surveys here in its own way: what this one wrote might take away what it does not know of. */
export class KeptByNewer extends Error {
  constructor() {
    super('a newer release keeps its surveys here');
  }
}

interface Schema extends DBSchema {
  works: { key: string; value: Kept };
  files: { key: [string, string]; value: Uint8Array };
}

export interface Shelf {
  /** the latest first */
  recent(): Promise<RecentWork[]>;
  /** null when it is not kept (any more) */
  load(id: string): Promise<Work | null>;
  /** id of the survey with corrections that was last kept of a served folder; null when there is none */
  correctedFrom(servedFrom: string): Promise<string | null>;
  /**
   * Writes what changed since the last save of this survey; resolves when it is on disk.
   * @throws ChangedElsewhere when it is kept, and not as it was last loaded or saved here; nothing is written then
   */
  save(id: string, work: Work, headline: string | null, at: string): Promise<void>;
  forget(id: string): Promise<void>;
}

/**
 * Opened with the first call, and by the next one after its connection died (a cleared profile, a disk that failed). What
 * was read and kept is known beyond that: what another tab kept meanwhile is not overwritten.
 */
export function openShelf(name = 'shoalwise'): Shelf {
  const alive = lastingConnection(name);
  let saving: Promise<unknown> = Promise.resolve();
  // the bytes that stand on disk, by identity: files are never changed in place
  let written: { id: string; files: Map<string, Uint8Array>; version: number } | null = null;

  // a save that began before the last one was over would take what that wrote for another tab's
  const afterOthers = (save: () => Promise<void>): Promise<void> => {
    const own = saving.then(save);
    saving = own.catch(() => {}); // told to whoever asked for it
    return own;
  };

  return {
    recent: () =>
      alive(async (db) => {
        const all = await db.getAll('works');
        return all
          .sort((a, b) => (a.at < b.at ? 1 : -1))
          .map(({ id, name, at, edits, headline }) => ({
            id,
            name,
            at,
            edits: edits.length,
            headline,
          }));
      }),
    load: (id) =>
      alive(async (db) => {
        const tx = db.transaction(['works', 'files']);
        const kept = await tx.objectStore('works').get(id);
        if (kept === undefined) {
          written = { id, files: new Map(), version: 0 };
          return null;
        }
        const files = new Map<string, Uint8Array>();
        for (const name of kept.fileNames) {
          const bytes = await tx.objectStore('files').get([id, name]);
          if (bytes !== undefined) files.set(name, bytes);
        }
        written = { id, files, version: kept.version ?? 0 };
        const { name, edits, servedFrom, draft } = kept;
        return {
          name,
          files,
          edits,
          ...(servedFrom === undefined ? {} : { servedFrom }),
          ...(draft === undefined ? {} : { draft }),
        };
      }),
    correctedFrom: (servedFrom) =>
      alive(async (db) => {
        const all = await db.getAll('works');
        const own = all.filter((kept) => kept.servedFrom === servedFrom && kept.edits.length > 0);
        return own.sort((a, b) => (a.at < b.at ? 1 : -1))[0]?.id ?? null;
      }),
    save: (id, work, headline, at) =>
      afterOthers(() =>
        alive(async (db) => {
          const tx = db.transaction(['works', 'files'], 'readwrite', { durability: 'strict' });
          const known = written?.id === id ? written : null;
          const stored = await tx.objectStore('works').get(id);
          // what was forgotten meanwhile is kept again; what another tab wrote, or was never read, is not overwritten
          if (stored !== undefined && (stored.version ?? 0) !== known?.version) {
            tx.abort();
            await tx.done.catch(() => {});
            throw new ChangedElsewhere();
          }
          const version = (stored?.version ?? 0) + 1;
          const files = tx.objectStore('files');
          const before =
            stored === undefined ? new Map<string, Uint8Array>() : (known?.files ?? new Map());
          const { name, edits, servedFrom, draft } = work;
          const fileNames = [...work.files.keys()];
          const kept: Kept = { id, name, at, edits, headline, fileNames, version };
          if (servedFrom !== undefined) kept.servedFrom = servedFrom;
          if (draft !== undefined) kept.draft = draft;
          await wholly(tx, () => [
            ...[...work.files].flatMap(([name, bytes]) =>
              before.get(name) === bytes ? [] : [files.put(bytes, [id, name])],
            ),
            ...[...before.keys()].flatMap((name) =>
              work.files.has(name) ? [] : [files.delete([id, name])],
            ),
            tx.objectStore('works').put(kept),
          ]);
          written = { id, files: new Map(work.files), version };
          await thinOut(db, id);
        }),
      ),
    forget: (id) =>
      alive(async (db) => {
        await remove(db, id);
        if (written?.id === id) written = null;
      }),
  };
}

/** What a browser says of a connection that is of no use any more; a full disk alone does not end one. */
const DEAD = new Set(['InvalidStateError', 'UnknownError']);

type Store = IDBPDatabase<Schema>;

function lastingConnection(name: string): <T>(work: (db: Store) => Promise<T>) => Promise<T> {
  let current: Promise<Store> | null = null;
  const drop = (which: Promise<Store>): void => {
    if (current === which) current = null;
  };
  const connect = (): Promise<Store> => {
    const opening = openDB<Schema>(name, FORMAT, {
      upgrade(fresh) {
        fresh.createObjectStore('works', { keyPath: 'id' });
        fresh.createObjectStore('files');
      },
      terminated: () => drop(opening),
      // a newer release waits to bring the store into its format
      blocking(_now, _wanted, event) {
        drop(opening);
        (event.target as IDBDatabase).close();
      },
    });
    opening.catch(() => drop(opening));
    return opening;
  };
  return async (work) => {
    current ??= connect();
    const used = current;
    const db = await used.catch((error: Error) => {
      throw error.name === 'VersionError' ? new KeptByNewer() : error;
    });
    try {
      return await work(db);
    } catch (error) {
      if (DEAD.has((error as Error).name)) {
        drop(used);
        db.close();
      }
      throw error;
    }
  };
}

/** All writes or none, also when one of them cannot even be asked for. */
async function wholly(
  tx: { done: Promise<void>; abort(): void },
  writes: () => Promise<unknown>[],
): Promise<void> {
  const done = tx.done;
  done.catch(() => {}); // told by what made it fail
  try {
    await Promise.all([...writes(), done]);
  } catch (error) {
    try {
      tx.abort();
    } catch {
      // it is over already
    }
    throw error;
  }
}

async function thinOut(db: Store, open: string): Promise<void> {
  if ((await db.count('works')) <= MOST_KEPT) return;
  const all = (await db.getAll('works')).sort((a, b) => (a.at < b.at ? -1 : 1));
  const excess = all.filter((kept) => kept.edits.length === 0 && kept.id !== open);
  for (const kept of excess.slice(0, all.length - MOST_KEPT)) await remove(db, kept.id);
}

async function remove(db: Store, id: string): Promise<void> {
  const tx = db.transaction(['works', 'files'], 'readwrite', { durability: 'strict' });
  await Promise.all([
    tx.objectStore('works').delete(id),
    tx.objectStore('files').delete(IDBKeyRange.bound([id, ''], [id, '\uffff'])),
    tx.done,
  ]);
}
