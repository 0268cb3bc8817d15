/** Surveys that come with the page: the demo lake, and the folder that the server was started with. */

import { HISTORY_FILE } from '../../../shared/history.ts';
import {
  IMPORT_FILE,
  KEEP_OUT_FILE,
  NO_DIVE_FILE,
  SURVEY_FILES,
} from '../../../shared/survey-files.ts';
import { PLANTED_SHELLS } from '../../../shared/tables.ts';
import type { Work } from '../contract.ts';
import { demoWithin } from './one-file.ts';

/** What the server tells of the folder it serves. */
export interface ServedSurvey {
  name: string;
  files: string[];
  /** the same for the same folder, whatever it holds */
  key: string;
  /** another one whenever a file of the survey changed on disk */
  state: string;
}

export interface FetchedSurvey extends Pick<Work, 'name' | 'files'> {
  servedFrom: string;
  state: string;
}

const DEMO = { name: 'demo-lake', folder: './demo-lake/' };
const NOT_IN_DEMO: readonly string[] = [
  PLANTED_SHELLS.file,
  'depth.tif',
  'variants.json',
  KEEP_OUT_FILE,
  NO_DIVE_FILE,
  HISTORY_FILE,
  IMPORT_FILE,
  NO_DIVE_FILE,
];
const DEMO_FILES = SURVEY_FILES.filter((name) => !NOT_IN_DEMO.includes(name));

export async function fetchDemo(): Promise<Pick<Work, 'name' | 'files'>> {
  const within = demoWithin();
  if (within !== null) return { name: DEMO.name, files: within };
  return fetchSurvey(DEMO.name, DEMO.folder, DEMO_FILES);
}

/** Whether the page comes from a server that serves a survey; the server says so in the page itself. */
function isServed(): boolean {
  return document.querySelector('meta[name="served-survey"]') !== null;
}

/** The served folder as it is on disk now; null when no survey is served. Throws when the server does not answer. */
export async function fetchServed(): Promise<FetchedSurvey | null> {
  if (!isServed()) return null;
  const served = await servedNow();
  const { name, files } = await fetchSurvey(served.name, './survey/', served.files);
  return { name, files, servedFrom: served.key, state: served.state };
}

/** What the server tells now. Throws when it does not answer. */
export async function servedNow(): Promise<ServedSurvey> {
  const answer = await fetch('./served.json', { cache: 'no-store' });
  if (!answer.ok) throw new Error(`the server does not tell of its folder (${answer.status})`);
  return (await answer.json()) as ServedSurvey;
}

async function fetchSurvey(name: string, folder: string, names: readonly string[]) {
  const files = new Map<string, Uint8Array>();
  await Promise.all(
    names.map(async (file) => {
      const answer = await fetch(folder + encodeURIComponent(file));
      if (!answer.ok) throw new Error(`${file} could not be fetched (${answer.status})`);
      files.set(file, new Uint8Array(await answer.arrayBuffer()));
    }),
  );
  // as they were asked for, whichever came first
  return { name, files: new Map(names.map((file) => [file, files.get(file)!])) };
}
