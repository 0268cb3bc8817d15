/** The values beside a shapefile: dBASE tables of fixed columns. (ESRI Shapefile Technical Description, 1998; dBASE III+ and IV.) */

import type { RawValue } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';

export interface DbfTable {
  rows: Record<string, RawValue>[];
  /** numbers of rows, from 0, that are marked as deleted */
  deleted: Set<number>;
  remark: string | null;
}

interface Field {
  name: string;
  type: string;
  at: number;
  bytes: number;
}

const HEADER_BYTES = 32;
const FIELD_BYTES = 32;
const HEADER_END = 0x0d;
const DELETED = 0x2a;
/** Code pages by the byte of the head that names one. */
const LANGUAGE_DRIVERS: Record<number, string> = {
  3: 'windows-1252',
  87: 'windows-1252',
  88: 'windows-1252',
  200: 'windows-1250',
  201: 'windows-1251',
  202: 'windows-1254',
  203: 'windows-1253',
};

/** A sentence on what is wrong when the table cannot be read. `named` is what a .cpg says. */
export function readDbf(bytes: Uint8Array, named: string | null): DbfTable | string {
  if (bytes.length < HEADER_BYTES + 1) return 'not a table of values (too short)';
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(4, true);
  const headBytes = view.getUint16(8, true);
  const rowBytes = view.getUint16(10, true);
  const fields = readFields(bytes, headBytes);
  const used = fields.reduce((sum, field) => sum + field.bytes, 1);
  if (fields.length === 0 || used > rowBytes || headBytes > bytes.length)
    return 'not a table of values (its head is damaged)';
  if (headBytes + count * rowBytes > bytes.length + 1)
    return `cut off: ${formatCount(bytes.length)} bytes, but ${formatCount(count)} rows of ${rowBytes} bytes expected`;
  const { decode, remark } = decoderOf(named, bytes[29], bytes, headBytes);
  const rows: Record<string, RawValue>[] = [];
  const deleted = new Set<number>();
  const names = uniqueNames(fields.map((field) => field.name));
  for (let i = 0; i < count; i++) {
    const start = headBytes + i * rowBytes;
    if (bytes[start] === DELETED) deleted.add(i);
    const row: Record<string, RawValue> = {};
    for (const [k, field] of fields.entries())
      row[names[k]] = fieldValue(
        field,
        decode(bytes.subarray(start + field.at, start + field.at + field.bytes)),
      );
    rows.push(row);
  }
  return { rows, deleted, remark };
}

function readFields(bytes: Uint8Array, headBytes: number): Field[] {
  const fields: Field[] = [];
  let at = 1;
  for (
    let place = HEADER_BYTES;
    place + FIELD_BYTES <= Math.min(headBytes, bytes.length);
    place += FIELD_BYTES
  ) {
    if (bytes[place] === HEADER_END) break;
    const nameBytes = bytes.subarray(place, place + 11);
    const stop = nameBytes.indexOf(0);
    const name = new TextDecoder()
      .decode(stop < 0 ? nameBytes : nameBytes.subarray(0, stop))
      .trim();
    const type = String.fromCharCode(bytes[place + 11]);
    // long texts have their size in both bytes
    const size = bytes[place + 16] + (type === 'C' ? 256 * bytes[place + 17] : 0);
    fields.push({
      name: name === '' ? `column ${fields.length + 1}` : name,
      type,
      at,
      bytes: size,
    });
    at += size;
  }
  return fields;
}

function uniqueNames(names: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return names.map((name) => {
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
}

function fieldValue(field: Field, raw: string): RawValue {
  const text = raw.replace(/\0/g, '').trim();
  switch (field.type) {
    case 'N':
    case 'F': {
      // stars fill a number that did not fit
      const value = Number(text.replace(',', '.'));
      return text === '' || /^\*+$/.test(text) ? null : Number.isFinite(value) ? value : text;
    }
    case 'D':
      return /^\d{8}$/.test(text)
        ? `${text.slice(0, 4)}-${text.slice(4, 6)}-${text.slice(6)}`
        : text === ''
          ? null
          : text;
    case 'L':
      return text === '' || text === '?' ? null : /^[ty]/i.test(text) ? 'true' : 'false';
    default:
      return text === '' ? null : text;
  }
}

interface Decoding {
  decode: (bytes: Uint8Array) => string;
  remark: string | null;
}

/** By the .cpg, by the byte in the head, else UTF-8 where everything is, else Windows-1252. */
function decoderOf(
  named: string | null,
  driver: number,
  bytes: Uint8Array,
  from: number,
): Decoding {
  const label = encodingOf(named ?? '') ?? LANGUAGE_DRIVERS[driver] ?? null;
  const decoder = label === null ? null : decoderFor(label);
  if (decoder !== null) {
    return { decode: (part) => decoder.decode(part), remark: null };
  }
  const ascii = bytes.subarray(from).every((byte) => byte < 0x80);
  const utf8 = ascii || isUtf8(bytes.subarray(from));
  const guessed = new TextDecoder(utf8 ? 'utf-8' : 'windows-1252');
  const unknown =
    named !== null && named !== '' ? `the encoding ${quoted(named)} is not known; ` : '';
  return {
    decode: (part) => guessed.decode(part),
    remark: ascii
      ? null
      : `${unknown}its text is read as ${utf8 ? 'UTF-8' : 'Windows-1252 (Western Europe)'}`,
  };
}

function encodingOf(named: string): string | null {
  const bare = named.toLowerCase().replace(/[^a-z0-9]/g, '');
  const number = /^(?:ansi|cp|windows|oem)?(\d{3,5})$/.exec(bare)?.[1];
  if (bare === 'utf8' || number === '65001') return 'utf-8';
  if (/^(iso)?8859(\d+)$/.test(bare)) return `iso-8859-${/8859(\d+)$/.exec(bare)![1]}`;
  if (number !== undefined && /^(125\d|874)$/.test(number)) return `windows-${number}`;
  return number === '866' ? 'ibm866' : null;
}

function decoderFor(label: string): TextDecoder | null {
  try {
    return new TextDecoder(label);
  } catch {
    return null; // there are numbers that no encoding has
  }
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}
