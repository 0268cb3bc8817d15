/**
 * Surveys kept in this browser (IndexedDB): what is on the screen survives a browser that is killed. Files are stored each
 * by itself, so that a corrected cell does not write a large map again.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Edit, RecentWork, Work } from '../contract.ts';

/** A survey that was not opened for so many others is forgotten, unless it has changes. */
const MOST_KEPT = 12;

interface Kept {
  id: string;
  name: string;
  at: string;
  edits: Edit[];
  headline: string | null;
  fileNames: string[];
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
  /** writes what changed since the last save of this survey; resolves when it is on disk */
  save(id: string, work: Work, headline: string | null, at: string): Promise<void>;
  forget(id: string): Promise<void>;
}

export async function openShelf(name = 'shoalwise'): Promise<Shelf> {
  const db = await openDB<Schema>(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore('works', { keyPath: 'id' });
      fresh.createObjectStore('files');
    },
  });
  // the bytes that stand on disk, by identity: files are never changed in place
  let written: { id: string; files: Map<string, Uint8Array> } | null = null;

  return {
    async recent() {
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
    },
    async load(id) {
      const tx = db.transaction(['works', 'files']);
      const kept = await tx.objectStore('works').get(id);
      if (kept === undefined) return null;
      const files = new Map<string, Uint8Array>();
      for (const name of kept.fileNames) {
        const bytes = await tx.objectStore('files').get([id, name]);
        if (bytes !== undefined) files.set(name, bytes);
      }
      written = { id, files };
      return { name: kept.name, files, edits: kept.edits };
    },
    async save(id, work, headline, at) {
      const tx = db.transaction(['works', 'files'], 'readwrite', { durability: 'strict' });
      const files = tx.objectStore('files');
      const before = written?.id === id ? written.files : new Map<string, Uint8Array>();
      const writes: Promise<unknown>[] = [];
      for (const [name, bytes] of work.files)
        if (before.get(name) !== bytes) writes.push(files.put(bytes, [id, name]));
      for (const name of before.keys())
        if (!work.files.has(name)) writes.push(files.delete([id, name]));
      const { name, edits } = work;
      const fileNames = [...work.files.keys()];
      writes.push(tx.objectStore('works').put({ id, name, at, edits, headline, fileNames }));
      await Promise.all([...writes, tx.done]);
      written = { id, files: new Map(work.files) };
      await thinOut(db, id);
    },
    async forget(id) {
      await remove(db, id);
      if (written?.id === id) written = null;
    },
  };
}

async function thinOut(db: IDBPDatabase<Schema>, open: string): Promise<void> {
  if ((await db.count('works')) <= MOST_KEPT) return;
  const all = (await db.getAll('works')).sort((a, b) => (a.at < b.at ? -1 : 1));
  const excess = all.filter((kept) => kept.edits.length === 0 && kept.id !== open);
  for (const kept of excess.slice(0, all.length - MOST_KEPT)) await remove(db, kept.id);
}

async function remove(db: IDBPDatabase<Schema>, id: string): Promise<void> {
  const tx = db.transaction(['works', 'files'], 'readwrite', { durability: 'strict' });
  await Promise.all([
    tx.objectStore('works').delete(id),
    tx.objectStore('files').delete(IDBKeyRange.bound([id, ''], [id, '\uffff'])),
    tx.done,
  ]);
}
