/** shoalwise areas DIR --hectares X | --volume-m3 V --out OUT: what treatment areas hold, and areas proposed for a budget. */

import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { AreaRequest } from '../../shared/areas.ts';
import { readHeld } from '../present/areas.ts';
import { readProposed } from '../present/proposals.ts';
import { areaFiles } from '../publish/areas.ts';
import { areasText } from './areas-text.ts';
import { type Core, EXIT, InputError, type Terminal, worst } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { AREAS, resultFolder } from './result-folder.ts';
import { tryOut, writeResult } from './write-out.ts';

export interface AreasAsked {
  folder: string;
  out: string;
  request: AreaRequest;
  /** a GeoJSON file of places that must not be chosen; null = the survey's own, if it has one */
  exclude: string | null;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** Larger files hold no polygons that somebody drew. */
const MOST_BYTES = 50_000_000;

/** Throws UsageError before anything is read when the files have no place to go. */
export async function areas(core: Core, terminal: Terminal, asked: AreasAsked): Promise<number> {
  const target = await resultFolder(asked.out, [asked.folder], AREAS);
  await tryOut(target);
  const excluded = asked.exclude === null ? null : await placesIn(asked.exclude);
  const visits = await eachFolder(
    [asked.folder],
    terminal,
    async (folder, { prefix, progress }) => {
      const { request } = asked;
      const done = await core.treatSurvey(
        folder,
        { request, excluded },
        { progress: progress.report },
      );
      progress.clear();
      printFindings(done.findings, terminal, prefix, asked.listAll);
      if (!done.ok) return { code: EXIT.data, value: null };
      await writeResult(target, areaFiles(done.areas, done.result), AREAS);
      terminal.out(areasText(readHeld(done.areas), readProposed(done.areas), terminal.bold));
      terminal.out(`\nWritten to ${target}\n\n`);
      return { code: EXIT.done, value: null };
    },
  );
  return worst(visits.map((v) => v.code));
}

async function placesIn(path: string): Promise<{ name: string; bytes: Uint8Array }> {
  const kind = await stat(path).catch(() => null);
  if (kind === null) throw new InputError(`${path}: there is no such file (--exclude)`);
  if (!kind.isFile()) throw new InputError(`${path}: a GeoJSON file is expected (--exclude)`);
  if (kind.size > MOST_BYTES)
    throw new InputError(`${path}: more than ${MOST_BYTES / 1e6} MB of excluded places`);
  return { name: basename(path), bytes: await readFile(path) };
}
