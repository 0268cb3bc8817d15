/** A survey to be typed in here: the three tables with their headers alone, and the lake's name. */

import { TABLES } from '../../../shared/tables.ts';
import type { Work } from '../contract.ts';

export function emptySurvey(lake: string): Pick<Work, 'name' | 'files'> {
  const name = lake.trim();
  const texts = [
    ...TABLES.map(({ file, columns }) => [file, `${columns.map((c) => c.name).join(',')}\n`]),
    ['analysis.json', `${JSON.stringify({ lake: name }, null, 2)}\n`],
  ] as const;
  const encoder = new TextEncoder();
  return {
    name,
    files: new Map(texts.map(([file = '', text]) => [file, encoder.encode(text)])),
  };
}
