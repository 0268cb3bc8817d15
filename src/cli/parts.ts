/**
 * Work of many pieces in parts that processes do on their own, on any machine that sees the same folder: each part keeps its
 * outcomes in a file, and who gathers reads them all. Each piece depends on its number alone, so the numbers are the same
 * on any number of parts.
 */

import { mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Outcome, RunMany, Task } from '../../models/index.ts';
import { sha256 } from '../../shared/sha256.ts';
import { VERSION } from '../../shared/version.ts';
import { listed } from '../../shared/words.ts';
import { type Share, shareOf } from './batch/list.ts';
import { InputError } from './core.ts';
import { numbersTo, type RunSome } from './pool.ts';

/** What ends a process that does one part: its outcomes are kept, the rest is for who gathers. */
export class PartDone extends Error {
  constructor(readonly path: string) {
    super(`the part is kept in ${path}`);
  }
}

interface Kept {
  version: string;
  /** of the task, its number of pieces and its inputs */
  task: string;
  outcomes: unknown[];
}

/** Does one part and ends by PartDone; a part that is kept already is not done again. */
export function doingPart(folder: string, share: Share, run: RunSome): RunMany {
  return async (task, count, progress) => {
    const path = pathOf(folder, task, share);
    const key = keyOf(task, count);
    if ((await keptIn(path))?.task !== key) {
      const outcomes = await run(task, shareOf(numbersTo(count), share), progress);
      await keep(path, { version: VERSION, task: key, outcomes });
    }
    throw new PartDone(path);
  };
}

/** Of as many parts as the files in the folder say. @throws InputError when a part is missing, or of other inputs */
export function gatheringParts(folder: string): RunMany {
  return async <K extends Task['kind']>(task: Extract<Task, { kind: K }>, count: number) => {
    const key = keyOf(task, count);
    const parts = await partsIn(folder, task);
    const missing: number[] = [];
    const outcomes = new Array<Outcome[K]>(count);
    for (let part = 1; part <= parts; part++) {
      const share = { part, of: parts };
      const kept = await keptIn(pathOf(folder, task, share));
      if (kept === null || kept.task !== key) {
        missing.push(part);
        continue;
      }
      shareOf(numbersTo(count), share).forEach((number, i) => {
        outcomes[number] = kept.outcomes[i] as Outcome[K];
      });
    }
    if (missing.length > 0)
      throw new InputError(
        `${folder}: ${missing.length} of ${parts} parts are missing, or were done with other files: ${listed(missing.map(String), 'and')}`,
      );
    return outcomes;
  };
}

/** How many parts the work was cut into. @throws InputError when there is none, or parts of two cuts */
async function partsIn(folder: string, { kind }: Task): Promise<number> {
  const names = await readdir(folder).catch((): string[] => []);
  const counts = new Set(
    names.flatMap((name) => {
      const found = /^([a-z]+)-\d+-of-(\d+)\.part$/.exec(name);
      return found?.[1] === kind ? [Number(found[2])] : [];
    }),
  );
  const [count, ...others] = counts;
  if (count === undefined) throw new InputError(`${folder}: no part of the work is in it`);
  if (others.length > 0)
    throw new InputError(
      `${folder}: parts of ${listed([...counts].map(String), 'and')} are in it (those of one cut expected)`,
    );
  return count;
}

function pathOf(folder: string, { kind }: Task, { part, of }: Share): string {
  return join(folder, `${kind}-${part}-of-${of}.part`);
}

/**
 * Of what the values are, not of how the engine holds them: v8's own bytes for 3 differ between a small integer and a
 * double, which depends on what was compiled by then.
 */
export function keyOf(task: Task, count: number): string {
  return sha256(new TextEncoder().encode(JSON.stringify([VERSION, count, task], asPlain)));
}

/** What JSON has no word for, told apart from what it has. */
function asPlain(_: string, value: unknown): unknown {
  if (value instanceof Map) return { map: [...value] };
  if (value instanceof Set) return { set: [...value] };
  if (ArrayBuffer.isView(value)) return { [value.constructor.name]: Array.from(value as never) };
  if (value === undefined || (typeof value === 'number' && !Number.isFinite(value)))
    return { value: String(value) };
  if (typeof value === 'function') throw new TypeError('got a function, expected plain data');
  return value;
}

async function keptIn(path: string): Promise<Kept | null> {
  const bytes = await readFile(path).catch(() => null);
  if (bytes === null) return null;
  try {
    const kept = deserialize(bytes) as Kept;
    return kept.version === VERSION ? kept : null;
  } catch {
    return null; // cut off by a full disk: done again
  }
}

/** Whole or not at all. */
async function keep(path: string, kept: Kept): Promise<void> {
  await mkdir(join(path, '..'), { recursive: true });
  const own = `${path}.${process.pid}`;
  await writeFile(own, serialize(kept));
  await rename(own, path);
}
