/** Chosen or dropped files, folders and zips → the files of one survey. */

import { HISTORY_FILE } from '../../../shared/history.ts';
import { MOST_SURVEY_BYTES, SURVEY_FILES } from '../../../shared/survey-files.ts';
import type { Work } from '../contract.ts';
import { CHANGES_FILE, historyOfChanges } from './history-file.ts';
import type { LooseFile } from './survey-zip.ts';
import { zipTool } from './zip.ts';

export interface Gathered extends Pick<Work, 'name' | 'files'> {
  /** single files, from no folder and no zip */
  single: boolean;
}

/** None of the files has the name of a survey's. */
export class NoSurvey extends Error {}

/** Reads what was chosen or dropped. Throws with a sentence when it holds no survey. */
export async function gatherSurvey(files: File[]): Promise<Gathered> {
  const zip = files.length === 1 && /\.zip$/i.test(files[0].name) ? files[0] : null;
  if (zip !== null) {
    refuseLarge(zip.size);
    const loose = await zipTool().unpack(zip);
    return { ...oneSurvey(loose, zip.name.replace(/\.zip$/i, '')), single: false };
  }
  const pathOf = (file: File): string => file.webkitRelativePath || file.name;
  const known = files.filter((file) => isSurveyFile(pathOf(file)));
  refuseLarge(known.reduce((sum, file) => sum + file.size, 0));
  const loose: LooseFile[] = [];
  for (const file of known) loose.push({ path: pathOf(file), bytes: await bytesOf(file) });
  const folder = files[0]?.webkitRelativePath.split('/')[0];
  return { ...oneSurvey(loose, folder || 'survey'), single: !folder };
}

/**
 * Single files without transects.csv are no survey of their own: they join the open one, each in place of its like. Changes that
 * were made to a file which is replaced go with it; the survey as it was stays among the recent ones.
 */
export function addedTo(
  open: Work | null,
  chosen: Gathered,
): Pick<Work, 'name' | 'files'> & Partial<Work> {
  if (open === null || !chosen.single || chosen.files.has('transects.csv')) return chosen;
  return {
    name: open.name,
    files: new Map([...open.files, ...chosen.files]),
    edits: open.edits.filter((edit) => !chosen.files.has(edit.file)),
  };
}

/**
 * Of several folders the one that lies highest and holds transects.csv (then by name); files outside of it are left alone.
 * `name` is used where the files lie in no folder.
 */
export function oneSurvey(loose: LooseFile[], name: string): Pick<Work, 'name' | 'files'> {
  const known = loose.filter((file) => isSurveyFile(file.path));
  if (known.length === 0)
    throw new NoSurvey(
      `No file of a survey was found: transects.csv, habitat.csv, detections.csv and the lake's maps are expected by these names.`,
    );
  const folders = [...new Set(known.map((file) => folderOf(file.path)))];
  const holding = known
    .filter((file) => base(file.path) === 'transects.csv')
    .map((file) => folderOf(file.path));
  const depth = (folder: string) => folder.split('/').length;
  const [chosen] = (holding.length > 0 ? holding : folders).sort(
    (a, b) => depth(a) - depth(b) || (a < b ? -1 : 1),
  );
  const files = new Map<string, Uint8Array>();
  for (const file of known)
    if (folderOf(file.path) === chosen) files.set(base(file.path), file.bytes);
  takeOverChanges(files);
  return { name: chosen!.split('/').at(-1) || name, files };
}

/** What earlier releases kept of changes becomes the history, where there is none. */
function takeOverChanges(files: Map<string, Uint8Array>): void {
  const changes = files.get(CHANGES_FILE);
  if (changes === undefined) return;
  files.delete(CHANGES_FILE);
  const history = files.has(HISTORY_FILE) ? null : historyOfChanges(changes);
  if (history !== null) files.set(HISTORY_FILE, history);
}

/** Folders that were dropped are walked; the entries must be asked for before the event is over. */
export async function droppedFiles(items: DataTransferItemList): Promise<File[]> {
  const entries: FileSystemEntry[] = [];
  const found: File[] = [];
  for (const item of items) {
    const entry = item.webkitGetAsEntry?.();
    const file = entry ? null : item.getAsFile(); // dropped by a program that shows no folders
    if (entry) entries.push(entry);
    else if (file !== null) found.push(file);
  }
  const walk = async (entry: FileSystemEntry, within: string): Promise<void> => {
    if (entry.isFile) {
      const file = await new Promise<File>((done, fail) =>
        (entry as FileSystemFileEntry).file(done, fail),
      );
      const path = within + file.name;
      Object.defineProperty(file, 'webkitRelativePath', { value: within === '' ? '' : path });
      found.push(file);
      return;
    }
    const reader = (entry as FileSystemDirectoryEntry).createReader();
    for (;;) {
      // a reader gives its entries in parts
      const part = await new Promise<FileSystemEntry[]>((done, fail) =>
        reader.readEntries(done, fail),
      );
      if (part.length === 0) return;
      for (const inner of part) await walk(inner, `${within}${entry.name}/`);
    }
  };
  for (const entry of entries) await walk(entry, '');
  return found;
}

function isSurveyFile(path: string): boolean {
  const name = base(path);
  return name === CHANGES_FILE || (SURVEY_FILES as readonly string[]).includes(name);
}

function base(path: string): string {
  return path.split('/').at(-1)!.toLowerCase();
}

function folderOf(path: string): string {
  return path.split('/').slice(0, -1).join('/');
}

function refuseLarge(bytes: number): void {
  if (bytes > MOST_SURVEY_BYTES)
    throw new Error(
      `These files have ${Math.round(bytes / 1e6)} MB, more than the ${MOST_SURVEY_BYTES / 1e6} MB that a survey may have here. A smaller raster of depths will do.`,
    );
}

async function bytesOf(file: File): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}
