/** import.json: from which files a survey was made, what was asked, on what evidence, and what was answered. */

import type { AskedQuestion, ImportRecord } from '../../shared/importing.ts';
import { sha256 } from '../../shared/sha256.ts';
import { VERSION } from '../../shared/version.ts';

export type SourceFile = ImportRecord['files'][number];

/** The files as they were given, before anything was unpacked. */
export function sourcesOf(files: readonly { name: string; bytes: Uint8Array }[]): SourceFile[] {
  return files.map(({ name, bytes }) => ({ name, sha256: sha256(bytes), bytes: bytes.length }));
}

/**
 * The text of import.json.
 * @param made the survey's files, without import.json
 * Throws when a question is open: nothing is applied then.
 */
export function recordText(
  sources: readonly SourceFile[],
  asked: readonly AskedQuestion[],
  remarks: readonly string[],
  made: ReadonlyMap<string, Uint8Array>,
): string {
  const record: ImportRecord = {
    schema: 'shoalwise/import/1',
    version: VERSION,
    files: [...sources],
    questions: asked.map(({ question, answer }) => {
      const { id, about, ask, evidence, proposal, certain } = question;
      if (answer === null) throw new Error(`got ${id} open, expected every question answered`);
      return { id, about, ask, evidence, proposal, certain, answer };
    }),
    remarks: [...remarks],
    made: [...made].map(([name, bytes]) => ({ name, sha256: sha256(bytes) })),
  };
  return `${JSON.stringify(record, null, 2)}\n`;
}
