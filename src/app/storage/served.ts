/** Surveys that come with the page: the demo lake, and the folder that the server was started with. */

import { SURVEY_FILES } from '../../../shared/survey-files.ts';
import type { Work } from '../contract.ts';

/** What the server tells of the folder it serves. */
export interface ServedSurvey {
  name: string;
  files: string[];
}

const DEMO = { name: 'demo-lake', folder: './demo-lake/' };
const DEMO_FILES = SURVEY_FILES.filter((name) => name !== 'depth.tif');

export function fetchDemo(): Promise<Pick<Work, 'name' | 'files'>> {
  return fetchSurvey(DEMO.name, DEMO.folder, DEMO_FILES);
}

/** Null when the page comes from a server that serves no survey. The server says so in the page itself. */
export async function fetchServed(): Promise<Pick<Work, 'name' | 'files'> | null> {
  const meta = document.querySelector<HTMLMetaElement>('meta[name="served-survey"]');
  if (meta === null) return null;
  const served = JSON.parse(meta.content) as ServedSurvey;
  return fetchSurvey(served.name, './survey/', served.files);
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
