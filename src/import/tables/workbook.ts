/** Bytes of a workbook (.xlsx, ECMA-376) → its sheets as tables of cells. */

import { strFromU8, unzipSync } from 'fflate';
import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { RawTable } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted, visible } from '../../../shared/words.ts';
import { MOST_UNPACKED_BYTES } from './limits.ts';
import { builtInLook, type Look, lookOf } from './serial.ts';
import { type Book, readSheet, SheetTooLarge } from './sheet.ts';
import { attribute, readXml, unescaped } from './xml.ts';

interface SheetEntry {
  name: string;
  hidden: boolean;
  /** path of its part; null for charts and other sheets without cells */
  part: string | null;
}

/** A sheet that is too large is told and left out; a file that is no workbook gives a finding and no tables. Never throws. */
export function readWorkbook(
  file: string,
  bytes: Uint8Array,
): { tables: RawTable[]; findings: Finding[] } {
  const refuse = (code: string, message: string) => ({
    tables: [],
    findings: [errorAt({ table: file }, code, message)],
  });
  let parts: Map<string, Uint8Array>;
  try {
    parts = unpacked(bytes);
  } catch (error) {
    if (error instanceof TooMuch) return refuse('too-large', error.message);
    return refuse('damaged-workbook', 'the file is damaged: it cannot be unpacked');
  }
  const main = mainPart(parts);
  if (main === null) {
    const other = parts.has('content.xml') ? 'a workbook of another kind (.ods)' : 'no workbook';
    return refuse('no-workbook', `${other} (a workbook saved as .xlsx expected)`);
  }
  const { sheets, system } = contents(parts, main);
  const folder = folderOf(main);
  const book: Book = {
    strings: sharedStrings(text(parts, `${folder}sharedStrings.xml`)),
    looks: looksOf(text(parts, `${folder}styles.xml`)),
    system,
  };
  const tables: RawTable[] = [];
  const findings: Finding[] = [];
  for (const { name, hidden, part } of sheets) {
    if (part === null) continue;
    try {
      const { rows, remarks } = readSheet(text(parts, part), book);
      const told = hidden ? ['The sheet is hidden in the workbook.', ...remarks] : remarks;
      if (rows.length > 0) tables.push({ file, sheet: name, rows, remarks: told });
    } catch (error) {
      if (!(error instanceof SheetTooLarge)) throw error;
      const table = `${file}, sheet ${quoted(name)}`;
      findings.push(errorAt({ table, row: error.row }, error.code, error.message));
    }
  }
  if (tables.length === 0 && findings.length === 0)
    return refuse('file-empty', 'no sheet of the workbook holds anything');
  return { tables, findings };
}

class TooMuch extends Error {}

/** Only what is read is unpacked, and nothing that says it would be larger than the bound; nothing grows beyond what it says. */
function unpacked(bytes: Uint8Array): Map<string, Uint8Array> {
  let total = 0;
  const members = unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      if (name === 'content.xml') return originalSize <= MOST_UNPACKED_BYTES;
      if (!/\.(xml|rels)$/i.test(name) || /(drawings|theme|charts|media|pivot\w*)\//i.test(name))
        return false;
      total += originalSize;
      if (total <= MOST_UNPACKED_BYTES) return true;
      throw new TooMuch(
        `unpacked the workbook has more than ${formatCount(MOST_UNPACKED_BYTES / 2 ** 20)} MB: ${quoted(visible(name))} alone says ${formatCount(originalSize / 2 ** 20)} MB (a workbook of field sheets expected)`,
      );
    },
  });
  return new Map(Object.entries(members));
}

function text(parts: Map<string, Uint8Array>, path: string): string {
  const bytes = parts.get(path);
  if (bytes === undefined) return '';
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  return strFromU8(bytes);
}

function folderOf(path: string): string {
  return path.slice(0, path.lastIndexOf('/') + 1);
}

/** The part that lists the sheets: the package's own relations name it. */
function mainPart(parts: Map<string, Uint8Array>): string | null {
  const named = [...relations(text(parts, '_rels/.rels'), '').values()].find(({ type }) =>
    type.endsWith('/officeDocument'),
  );
  const path = named?.target ?? 'xl/workbook.xml';
  return parts.has(path) ? path : null;
}

function relations(xml: string, folder: string) {
  const byId = new Map<string, { type: string; target: string }>();
  readXml(xml, {
    open(name, attributes) {
      if (name !== 'Relationship') return;
      const target = attribute(attributes, 'Target') ?? '';
      const path = target.startsWith('/') ? target.slice(1) : folder + target;
      const type = attribute(attributes, 'Type') ?? '';
      byId.set(attribute(attributes, 'Id') ?? '', { type, target: path.replace(/^\.\//, '') });
    },
    text() {},
    close() {},
  });
  return byId;
}

function contents(parts: Map<string, Uint8Array>, main: string) {
  const folder = folderOf(main);
  const file = main.slice(folder.length);
  const targets = relations(text(parts, `${folder}_rels/${file}.rels`), folder);
  const sheets: SheetEntry[] = [];
  let system: Book['system'] = 1900;
  readXml(text(parts, main), {
    open(name, attributes) {
      if (name === 'workbookPr' && /^(1|true)$/.test(attribute(attributes, 'date1904') ?? ''))
        system = 1904;
      if (name !== 'sheet') return;
      const found = targets.get(attribute(attributes, 'id') ?? '');
      const part = found?.type.endsWith('/worksheet') ? found.target : null;
      const state = attribute(attributes, 'state') ?? 'visible';
      sheets.push({
        name: attribute(attributes, 'name') ?? '',
        hidden: state !== 'visible',
        part: part !== null && parts.has(part) ? part : null,
      });
    },
    text() {},
    close() {},
  });
  return { sheets, system };
}

/** Runs of one string joined; how it is pronounced (18.4.6) is no part of it. */
function sharedStrings(xml: string): string[] {
  const strings: string[] = [];
  let now = '';
  let reading = false;
  let phonetic = false;
  readXml(xml, {
    open(name, _, closed) {
      if (name === 'si') now = '';
      if (name === 'si' && closed) strings.push('');
      if (name === 'rPh') phonetic = !closed;
      if (name === 't') reading = !closed && !phonetic;
    },
    text(part) {
      if (reading) now += part;
    },
    close(name) {
      if (name === 't') reading = false;
      if (name === 'rPh') phonetic = false;
      if (name === 'si') strings.push(unescaped(now));
    },
  });
  return strings;
}

function looksOf(xml: string): Look[] {
  const own = new Map<number, Look>();
  const looks: Look[] = [];
  let inCells = false;
  readXml(xml, {
    open(name, attributes, closed) {
      if (name === 'cellXfs') inCells = !closed;
      if (name === 'numFmt')
        own.set(
          Number(attribute(attributes, 'numFmtId')),
          lookOf(attribute(attributes, 'formatCode') ?? ''),
        );
      if (name !== 'xf' || !inCells) return;
      const id = Number(attribute(attributes, 'numFmtId') ?? 0);
      looks.push(own.get(id) ?? builtInLook(id));
    },
    text() {},
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return looks;
}
