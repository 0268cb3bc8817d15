/** What page and worker agree on about bringing in files of others. */

import type { Finding } from '../../shared/findings.ts';
import type { Answer, GivenFile, ImportOutcome } from '../../shared/importing.ts';

/** What was recognised in the files. */
export interface GivenView {
  recognised: { name: string; as: string }[];
}

export interface AnswersGiven {
  /** by identifier of the question */
  answers: ReadonlyMap<string, Answer>;
  /** identifiers of questions whose proposal is taken */
  accepted: ReadonlySet<string>;
  /** proposals whose evidence leaves no second reading are taken */
  acceptCertain: boolean;
}

export interface ImportedView extends ImportOutcome {
  /** what reading and checks say of the survey that would be made; null while there is none */
  judged: { findings: Finding[]; ok: boolean } | null;
}

/** Served by the core worker. */
export interface ImportWorker {
  /** read once; the answers are applied to what was read last */
  readGiven(files: GivenFile[]): Promise<GivenView>;
  importGiven(answers: AnswersGiven, name: string): Promise<ImportedView>;
}
