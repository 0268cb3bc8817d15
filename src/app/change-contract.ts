/** What page and worker agree on about the change between surveys. */

import type { ChangeFile, ChangePicture } from '../../shared/change.ts';
import type { Finding } from '../../shared/findings.ts';
import type { AskedQuestion } from '../../shared/importing.ts';
import type { LngLatPolygon, TreatmentArea } from '../../shared/survey.ts';
import type { AnswersGiven } from './import-contract.ts';

/** A survey's files under the name by which it is told from the others. */
export interface NamedSurvey {
  name: string;
  files: Map<string, Uint8Array>;
}

export interface ChangeAsked extends Pick<AnswersGiven, 'answers' | 'accepted'> {
  /** number of the request: one with a greater number takes its place, in whatever order they arrive */
  turn: number;
  /** what was treated between the surveys; none: nothing is said of it */
  treated: { name: string; polygons: LngLatPolygon[] }[];
}

export type ChangeView =
  /** `file` is null while a question is open */
  | {
      ok: true;
      file: ChangeFile | null;
      /** one a pair of the file */
      pictures: (ChangePicture | null)[];
      /** treatment areas of all surveys */
      places: TreatmentArea[];
      questions: AskedQuestion[];
      findings: Finding[];
    }
  | { ok: false; findings: Finding[] };

/** Served by the core worker. */
export interface ChangeWorker {
  /**
   * What was worked out of a survey stays for the next request. A request that comes while another is worked on ends that one,
   * at its next step, with an error.
   * @param progress with the survey that a step is about; null: all of them
   */
  compareSurveys(
    surveys: NamedSurvey[],
    asked: ChangeAsked,
    progress: (step: string, survey: string | null) => void,
  ): Promise<ChangeView>;
  /** of the last comparison: change.json, change.csv and change.html, by name */
  changeFiles(file: ChangeFile): Promise<Map<string, string>>;
}
