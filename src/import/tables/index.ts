/** Tables of other people: their files → raw tables → the survey's tables, with what has to be asked about them. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { GivenFile, RawTable } from '../../../shared/importing.ts';

export { type SheetOutcome, sheetTables } from './sheet-tables.ts';

/** Signatures: zip (PKWARE APPNOTE 4.3.7), the older container of office files (MS-CFB 2.2). */
const ZIP = [0x50, 0x4b, 0x03, 0x04];
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0];

/**
 * Text parted by any sign, in UTF-8, UTF-16 or Windows-1252, or a workbook (.xlsx). What the file is, is seen in its bytes, not
 * in its name. Where it cannot be read there is a finding and no table. Never throws.
 */
export async function readTableFile({
  name,
  bytes,
}: GivenFile): Promise<{ tables: RawTable[]; findings: Finding[] }> {
  if (beginsWith(bytes, COMPOUND_FILE)) {
    const message =
      'a workbook of the older kind (.xls), or one locked with a password (a workbook saved as .xlsx without a password expected)';
    return { tables: [], findings: [errorAt({ table: name }, 'old-workbook', message)] };
  }
  // loaded when somebody imports a table
  if (beginsWith(bytes, ZIP)) return (await import('./workbook.ts')).readWorkbook(name, bytes);
  return (await import('./delimited.ts')).readDelimited(name, bytes);
}

function beginsWith(bytes: Uint8Array, signature: readonly number[]): boolean {
  return signature.every((byte, i) => bytes[i] === byte);
}
