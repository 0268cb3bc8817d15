/** What the commands ask of the rest of the program, and where they write. */

import type {
  describeBed,
  estimateSurvey,
  Folder,
  importGiven,
  judge,
  readAnswersFile,
  readGivenFiles,
  readPlanned,
  rehearseSurvey,
  treatSurvey,
} from '../pipeline.ts';

/** The services of the pipeline; handed in, so that a command can be tested with a survey that breaks. */
export interface Core {
  readGivenFiles: typeof readGivenFiles;
  readAnswersFile: typeof readAnswersFile;
  importGiven: typeof importGiven;
  judge: typeof judge;
  estimateSurvey: typeof estimateSurvey;
  rehearseSurvey: typeof rehearseSurvey;
  treatSurvey: typeof treatSurvey;
  describeBed: typeof describeBed;
  readPlanned: typeof readPlanned;
}

export type { Folder };

/** Done, an error of the program itself, errors in the data, a wrong command line, a disk that does not take the results (74 as in sysexits.h). */
export const EXIT = { done: 0, program: 1, data: 2, usage: 64, output: 74 } as const;

/** Of several folders' codes the worst counts: an error of the program over errors in the data. */
export function worst(codes: number[]): number {
  if (codes.includes(EXIT.program)) return EXIT.program;
  return codes.find((code) => code !== EXIT.done) ?? EXIT.done;
}

/** A wrong command line: the message is for the person who typed it. */
export class UsageError extends Error {}

/** The disk does not take the results; the message says why. */
export class OutputError extends Error {}

/** A folder or file that cannot be used as a survey. */
export class InputError extends Error {}

/** Where text goes, and whether a person is looking at it. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** standard output is a screen that may show bold letters */
  bold: boolean;
  /** standard error is a screen on which a line can be rewritten */
  live: boolean;
}
