/** The open survey as a folder of plain files, with what was corrected and what the tables mean. */

import { dataPackage } from '../../../shared/table-schema.ts';
import type { Work } from '../contract.ts';
import { withHistory } from './history-file.ts';

/** File name → content. The survey's own files stay byte for byte. */
export function surveyPackage(work: Work, lake: string): Map<string, Uint8Array | string> {
  const files = withHistory(work.files, work.edits);
  files.set(
    'datapackage.json',
    `${JSON.stringify(dataPackage(lake, new Set(files.keys())), null, 2)}\n`,
  );
  return files;
}
