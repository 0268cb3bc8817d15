/** Every file of a plan's folder, as the command line writes them. */

import type { PlanFile } from '../../../shared/planning.ts';
import { readPlanned } from '../../pipeline.ts';
import type { PlanLake } from '../../present/plan-picture.ts';

/** @param files of the survey that was planned by */
export async function planFolder(
  plan: PlanFile,
  files: ReadonlyMap<string, Uint8Array>,
  lake: PlanLake,
): Promise<Map<string, Uint8Array | string>> {
  const [{ plannedFolder, planFiles }, { fieldSheets }, { fieldSheetsHtml }] = await Promise.all([
    import('../../publish/plan-files.ts'),
    import('../../present/field-sheets.ts'),
    import('../../publish/field-sheets.ts'),
  ]);
  const folder = plannedFolder(plan, files);
  const encoder = new TextEncoder();
  const written = new Map(
    [...folder].map(([file, text]) => [
      file,
      typeof text === 'string' ? encoder.encode(text) : text,
    ]),
  );
  const { survey } = readPlanned(written, plan.lake);
  const sheets = fieldSheets(survey, { observers: null, blank: 0, detectionPages: 1 });
  return new Map<string, Uint8Array | string>([
    ...folder,
    ...planFiles(plan, lake),
    ['sheets.html', fieldSheetsHtml(sheets, 'a4')],
  ]);
}
