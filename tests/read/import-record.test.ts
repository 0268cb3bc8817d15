/** A record of an import that was damaged is told, and changes nothing. Expected texts by hand. */

import { describe, expect, it } from 'vitest';
import { recordText } from '../../src/import/record.ts';
import { readFolder } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';

const SOUND = recordText([], [], [], new Map());

async function told(record: string | Uint8Array) {
  const folder = toFolder(baseSurvey());
  folder.files.set(
    'import.json',
    typeof record === 'string' ? new TextEncoder().encode(record) : record,
  );
  return (await readFolder(folder)).findings;
}

describe('import.json', () => {
  it('as it was written is told nothing of', async () => {
    expect(await told(SOUND)).toEqual([]);
  });

  it.each<[string, string | Uint8Array, string]>([
    ['cut off', SOUND.slice(0, 60), 'not valid JSON'],
    ['empty', '', 'not valid JSON'],
    ['of bytes that are no text', Uint8Array.of(0xff, 0xfe, 0), 'not a text in UTF-8'],
    ['of another kind', '{"schema": "shoalwise/answers/1"}', 'no record of an import'],
    ['that is a list', '[]', 'no record of an import'],
    [
      'without its questions',
      SOUND.replace('"questions"', '"question"'),
      'its questions are no list',
    ],
    [
      'with a question that is none',
      SOUND.replace('"questions": []', '"questions": [{"id": "a", "answer": 1}, {"id": "b"}]'),
      'question 2 has no id or no answer',
    ],
  ])('%s is one notice', async (_, record, says) => {
    const findings = await told(record);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      severity: 'notice',
      code: 'import-unread',
      table: 'import.json',
    });
    expect(findings[0].message).toContain(says);
    expect(findings[0].message).toContain('no number depends on it');
  });
});
