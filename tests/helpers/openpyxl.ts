/** Workbooks written by Debian's python3-openpyxl, an independent writer; where it is missing such tests are skipped. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PYTHON = process.env.PYTHON ?? '/usr/bin/python3';

export const hasOpenpyxl = spawnSync(PYTHON, ['-c', 'import openpyxl']).status === 0;

/** `lines` of Python get an empty workbook `book` (its sheet is `sheet`), `data` and `datetime`; returns the bytes of the saved workbook. */
export function writtenByOpenpyxl(lines: string, data: unknown = null): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'shoalwise-book-'));
  try {
    const path = join(folder, 'book.xlsx');
    const given = join(folder, 'data.json');
    writeFileSync(given, JSON.stringify(data));
    const script = `import datetime, json, sys, openpyxl
book = openpyxl.Workbook()
sheet = book.active
data = json.load(open(sys.argv[2]))
${lines}
book.save(sys.argv[1])
`;
    const done = spawnSync(PYTHON, ['-', path, given], { input: script, encoding: 'utf8' });
    if (done.status !== 0) throw new Error(`openpyxl: ${done.stderr}`);
    return new Uint8Array(readFileSync(path));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
