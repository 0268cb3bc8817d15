/** Files that are being brought in, read once and kept while their questions are answered. */

import { type Given, importGiven, readGivenFiles } from '../../pipeline.ts';
import type { ImportWorker } from '../import-contract.ts';

let given: Given | null = null;

export const importBench: ImportWorker = {
  async readGiven(files) {
    given = await readGivenFiles(files);
    return { recognised: given.recognised };
  },
  async importGiven(answers, name) {
    if (given === null) throw new Error('nothing was read: there is nothing to bring in');
    return importGiven(given, answers, name);
  },
};
