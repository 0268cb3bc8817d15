/** The demo lake's tables as somebody else would have typed them. Everything in them is invented (demo-lake/README.md). */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import type { Answer, ImportedRow, Question, RawTable } from '../../../shared/importing.ts';
import { askerWith } from '../../../src/import/ask.ts';
import { readTableFile, type SheetOutcome, sheetTables } from '../../../src/import/tables/index.ts';

export type Cells = Record<string, string>;
export type SheetName = 'transects' | 'habitat' | 'detections';

const DEMO = join(import.meta.dirname, '../../../demo-lake');

/** Rows of a table of the demo lake, by a parser that is not ours. */
export function demo(name: SheetName): Cells[] {
  return DEMO_TABLES[name];
}

function parsed(name: SheetName): Cells[] {
  const text = readFileSync(join(DEMO, `${name}.csv`), 'utf8');
  return Papa.parse<Cells>(text, { header: true, skipEmptyLines: true }).data;
}

const DEMO_TABLES: Record<SheetName, Cells[]> = {
  transects: parsed('transects'),
  habitat: parsed('habitat'),
  detections: parsed('detections'),
};

export const utf8 = (text: string) => new TextEncoder().encode(text);
/** Every letter of the demo lies within Latin-1, which Windows-1252 shares but for 80 to 9F. */
export const latin1 = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));

/** An international foot is 0.3048 m and an inch 0.0254 m exactly. */
export const toFeet = (metres: string, decimals: number) =>
  metres === '' ? '' : (Number(metres) / 0.3048).toFixed(decimals);
export const toInches = (cm: string, decimals: number) =>
  cm === '' ? '' : (Number(cm) / 2.54).toFixed(decimals);

export interface Came {
  outcome: SheetOutcome;
  questions: Question[];
  /** identifiers of what nobody has answered */
  open: string[];
  /** the answers that let it through */
  answers: Map<string, Answer>;
}

/** The files read and matched; where no answer is given every proposal is taken and counts as open. */
export async function comeIn(
  files: Record<string, Uint8Array>,
  answers: ReadonlyMap<string, Answer> = new Map(),
): Promise<Came> {
  const tables: RawTable[] = [];
  for (const [name, bytes] of Object.entries(files)) {
    const read = await readTableFile({ name, bytes });
    if (read.findings.length > 0) throw new Error(read.findings[0].message);
    tables.push(...read.tables);
  }
  const asker = askerWith({ answers, accepted: new Set(), acceptCertain: false });
  const outcome = sheetTables(tables, asker.ask);
  const open = asker.asked().filter(({ answer }) => answer === null);
  const proposals = asker
    .asked()
    .map(({ question, answer }) => [question.id, answer ?? question.proposal!] as const);
  const questions = asker.asked().map(({ question }) => question);
  return {
    outcome,
    questions,
    open: open.map(({ question }) => question.id),
    answers: new Map(proposals),
  };
}

/** Differences of more than so much between a number that came in and the demo's; texts have to be equal. */
export function differences(
  came: readonly ImportedRow[],
  expected: readonly Cells[],
  tolerance: (column: string) => number,
): string[] {
  if (came.length !== expected.length) return [`${came.length} rows, ${expected.length} expected`];
  return expected.flatMap((row, i) =>
    Object.entries(row).flatMap(([column, text]) => {
      const { cells, place } = came[i];
      const own = cells[column] ?? '';
      const near = tolerance(column);
      const equal =
        own === text ||
        (near > 0 && own !== '' && text !== '' && Math.abs(Number(own) - Number(text)) <= near);
      return equal ? [] : [`${place}, ${column}: ${own} for ${text}`];
    }),
  );
}
