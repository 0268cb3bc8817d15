/** import.json of a survey → whether next year's files can come in by its answers. What is wrong with it is a notice: no number depends on it. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { ImportRecord } from '../../shared/importing.ts';
import { IMPORT_FILE } from '../../shared/survey-files.ts';
import { isObject, parseJson } from './json.ts';

const SCHEMA: ImportRecord['schema'] = 'shoalwise/import/1';
const LISTS: readonly (keyof ImportRecord)[] = ['files', 'questions', 'made'];

/** `bytes` undefined: no such file. Never throws. */
export function judgeImportRecord(bytes: Uint8Array | undefined): Finding[] {
  const fault = bytes === undefined ? null : faultOf(bytes);
  if (fault === null) return [];
  const message = `${fault}; no number depends on it, but no further files can come in by its answers`;
  return [noticeAt({ table: IMPORT_FILE }, 'import-unread', message)];
}

/** What was found in place of a record of an import; null for a sound one. */
function faultOf(bytes: Uint8Array): string | null {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return 'not a text in UTF-8 (the record that import writes expected)';
  }
  const parsed = parseJson(text);
  if ('fault' in parsed) return `${parsed.fault} (the record that import writes expected)`;
  const { json } = parsed;
  if (!isObject(json) || json.schema !== SCHEMA)
    return `no record of an import ("schema": "${SCHEMA}" expected)`;
  const missing = LISTS.find((name) => !Array.isArray(json[name]));
  if (missing !== undefined) return `its ${missing} are no list (a list expected)`;
  const unnamed = (json.questions as unknown[]).findIndex(
    (one) => !isObject(one) || typeof one.id !== 'string' || one.answer === undefined,
  );
  return unnamed === -1 ? null : `question ${unnamed + 1} has no id or no answer (both expected)`;
}
