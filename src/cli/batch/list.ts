/** LIST.csv: a lake a row, its survey's folder beside the list, and if wanted the name of its results. */

import { dirname, isAbsolute, join, resolve } from 'node:path';
import Papa from 'papaparse';
import type { ListedLake } from '../../../shared/batch.ts';
import { quoted } from '../../../shared/words.ts';
import { InputError } from '../core.ts';
import { folderName } from '../folder.ts';
import { readGivenFile } from '../given-file.ts';
import { namesApart } from '../result-folder.ts';

const MOST_LAKES = 100_000;
/** Fit for a folder on every system. */
const NAME = /^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,99}$/u;

export interface LakeToDo extends ListedLake {
  /** where its survey lies */
  path: string;
}

/** @throws InputError with the row where the list cannot be used */
export async function readList(path: string): Promise<LakeToDo[]> {
  const text = (await readGivenFile(path)).toString('utf8');
  // as in bytes of Windows-1252, UTF-16 or a workbook
  if (/[\0\uFFFD]/.test(text))
    throw new InputError(`${path}: not text in UTF-8 (a list saved as "CSV UTF-8" expected)`);
  const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), { skipEmptyLines: false });
  const [head = [], ...rows] = data;
  const names = head.map((cell) => cell.trim().toLowerCase());
  const [folderAt, nameAt] = [names.indexOf('folder'), names.indexOf('name')];
  if (folderAt < 0)
    throw new InputError(
      `${path}: no column "folder" (a header row with folder, and name if wanted, expected)`,
    );
  const found: { folder: string; name: string; row: number }[] = [];
  rows.forEach((cells, i) => {
    if (cells.every((cell) => cell.trim() === '')) return;
    const folder = (cells[folderAt] ?? '').trim();
    if (folder === '')
      throw new InputError(`${path} row ${i + 2}, folder: blank (a survey folder expected)`);
    const name = nameAt < 0 ? '' : (cells[nameAt] ?? '').trim();
    if (name !== '' && !NAME.test(name))
      throw new InputError(
        `${path} row ${i + 2}, name: ${quoted(name)} is no name of a folder (letters, digits, blanks, . _ - expected)`,
      );
    found.push({ folder, name, row: i + 2 });
  });
  if (found.length === 0) throw new InputError(`${path}: no lake (a row for each expected)`);
  if (found.length > MOST_LAKES)
    throw new InputError(`${path}: ${found.length} lakes (at most ${MOST_LAKES} expected)`);
  const byFolder = new Map<string, number>();
  for (const { folder, row } of found) {
    const own = resolve(dirname(path), folder);
    const earlier = byFolder.get(own);
    if (earlier !== undefined)
      throw new InputError(
        `${path} row ${row}, folder: ${quoted(folder)} stands in row ${earlier} already (each lake once expected: the total would count it twice)`,
      );
    byFolder.set(own, row);
  }
  const given = new Map<string, number>();
  for (const { name, row } of found) {
    if (name === '') continue;
    const earlier = given.get(name.toLowerCase());
    if (earlier !== undefined)
      throw new InputError(
        `${path} row ${row}, name: ${quoted(name)} stands in row ${earlier} already`,
      );
    given.set(name.toLowerCase(), row);
  }
  const own = namesApart(found.map(({ folder, name }) => name || folderName(folder)));
  return found.map(({ folder }, i) => ({
    name: own[i],
    folder,
    path: isAbsolute(folder) ? folder : join(dirname(path), folder),
  }));
}

/** The lakes of one share of so many: each share gets every n-th, so that lakes near each other in the list go apart. */
export function shareOf<T>(lakes: readonly T[], { part, of }: Share): T[] {
  return lakes.filter((_, i) => i % of === part - 1);
}

/** One of several shares of the work, from 1. */
export interface Share {
  part: number;
  of: number;
}
