/**
 * Zips and KMZ among the given files are taken apart, within bounds: a few bytes can ask for any amount of memory. Workbooks,
 * which are zips too, stay whole. (APPNOTE.TXT 6.3, PKWARE, 4.3 and 4.4.)
 */

import { Inflate } from 'fflate';
import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { GivenFile } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted, visible } from '../../../shared/words.ts';
import { crc32 } from './crc32.ts';

/** What all zips of one import may hold. */
const MOST_BYTES = 1_000_000_000;
const MOST_ENTRIES = 5_000;
/** Deflate packs 1,032 to 1 at most; text of maps packs 3 to 20. Small files may be anything. */
const MOST_RATIO = 200;
const SMALL_BYTES = 20_000_000;
/** A zip within a zip is opened, one within that is not. */
const DEEPEST = 2;
const LONGEST_PATH = 400;

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const END_BYTES = 22;
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED = 1;
/** What systems put into zips by themselves. */
const LITTER = /(^|\/)(__MACOSX\/|\.DS_Store$|Thumbs\.db$|desktop\.ini$|\._)/i;

interface Entry {
  path: string;
  packed: Uint8Array;
  method: number;
  bytes: number;
  crc: number;
}

interface Budget {
  bytes: number;
  entries: number;
}

/** Files of a zip are named after it: `lake.zip/outline.shp`. A zip that cannot be trusted is left out whole, with an error. */
export function unpack(files: readonly GivenFile[]): { files: GivenFile[]; findings: Finding[] } {
  const findings: Finding[] = [];
  const budget = { bytes: MOST_BYTES, entries: MOST_ENTRIES };
  return { files: files.flatMap((file) => opened(file, 0, budget, findings)), findings };
}

const WHOLE = /\.(xls[xmb]|xlt[xm]|ods|odt|docx|pptx)$/i;

function opened(file: GivenFile, depth: number, budget: Budget, findings: Finding[]): GivenFile[] {
  if (!isZip(file.bytes) || WHOLE.test(file.name)) return [file];
  const fail = (code: string, message: string): GivenFile[] => {
    findings.push(errorAt({ table: file.name }, code, message));
    return [];
  };
  if (depth === DEEPEST)
    return fail(
      'zip-in-zip',
      'a zip within a zip within a zip (at most one within another expected)',
    );
  const listed = entriesOf(file.bytes);
  if (typeof listed === 'string')
    return fail('unreadable-zip', `not a zip that can be read (${listed})`);
  if (listed.some(({ path }) => path === '[Content_Types].xml' || path === 'mimetype'))
    return [file];
  const inside: GivenFile[] = [];
  for (const entry of listed) {
    if (entry.path.endsWith('/') || LITTER.test(entry.path)) continue;
    const read = contentOf(entry, budget);
    if (typeof read === 'string') return fail('unreadable-zip', `${quoted(entry.path)}: ${read}`);
    inside.push({ name: `${file.name}/${entry.path}`, bytes: read });
  }
  if (inside.length === 0)
    findings.push(noticeAt({ table: file.name }, 'empty-zip', 'holds no file: left out'));
  return inside.flatMap((each) => opened(each, depth + 1, budget, findings));
}

function isZip(bytes: Uint8Array): boolean {
  return bytes.length >= END_BYTES && (u32(bytes, 0) === LOCAL || u32(bytes, 0) === END);
}

/** By the central directory; what is wrong, in words, where it and the file do not agree. */
function entriesOf(bytes: Uint8Array): Entry[] | string {
  const end = endRecord(bytes);
  if (end === null) return 'its list of files is missing: was it cut off?';
  const count = u16(bytes, end + 10);
  if (count === 0xffff) return 'more than 65,534 files';
  const entries: Entry[] = [];
  let at = u32(bytes, end + 16);
  for (let k = 0; k < count; k++) {
    if (at + 46 > bytes.length || u32(bytes, at) !== CENTRAL) return 'its list of files is damaged';
    const [nameBytes, extraBytes, noteBytes] = [28, 30, 32].map((place) => u16(bytes, at + place));
    if ((u16(bytes, at + 8) & ENCRYPTED) !== 0) return 'its files need a password';
    const path = pathOf(bytes.subarray(at + 46, at + 46 + nameBytes));
    if (path === null) return 'a file in it has a path that leads out of it';
    const local = u32(bytes, at + 42);
    if (local + 30 > bytes.length || u32(bytes, local) !== LOCAL)
      return `${quoted(path)} is missing in it`;
    const start = local + 30 + u16(bytes, local + 26) + u16(bytes, local + 28);
    const packedBytes = u32(bytes, at + 20);
    if (start + packedBytes > bytes.length) return `${quoted(path)} ends beyond the end of it`;
    entries.push({
      path,
      packed: bytes.subarray(start, start + packedBytes),
      method: u16(bytes, at + 10),
      bytes: u32(bytes, at + 24),
      crc: u32(bytes, at + 16),
    });
    at += 46 + nameBytes + extraBytes + noteBytes;
  }
  return entries;
}

/** A comment of up to 65,535 bytes may follow it. */
function endRecord(bytes: Uint8Array): number | null {
  const least = Math.max(0, bytes.length - END_BYTES - 0xffff);
  for (let at = bytes.length - END_BYTES; at >= least; at--) if (u32(bytes, at) === END) return at;
  return null;
}

/** With `/` between folders; null where it leads out of the zip or is no path. */
function pathOf(bytes: Uint8Array): string | null {
  const text = new TextDecoder().decode(bytes).replaceAll('\\', '/');
  const steps = text.split('/');
  const wrong =
    text === '' ||
    text.length > LONGEST_PATH ||
    steps[0] === '' ||
    steps.includes('..') ||
    /^[a-z]:/i.test(text);
  return wrong ? null : visible(text);
}

function contentOf(entry: Entry, budget: Budget): Uint8Array | string {
  if (--budget.entries < 0) return `more than ${formatCount(MOST_ENTRIES)} files in all zips`;
  const { packed, method } = entry;
  const most = Math.min(budget.bytes, Math.max(SMALL_BYTES, MOST_RATIO * packed.length));
  if (entry.bytes > most) return tooLarge(entry.bytes, most === budget.bytes);
  let content: Uint8Array;
  if (method === STORED) content = packed;
  else if (method === DEFLATED) {
    const inflated = inflateUpTo(packed, entry.bytes);
    if (typeof inflated === 'string') return inflated;
    content = inflated;
  } else return `packed in a way that is not read (method ${method}; deflate expected)`;
  if (content.length !== entry.bytes || crc32(content) !== entry.crc)
    return 'its content is damaged (its checksum differs)';
  budget.bytes -= content.length;
  return content;
}

function tooLarge(bytes: number, ofAll: boolean): string {
  const size = `unpacks to ${formatCount(Math.round(bytes / 1e6))} MB`;
  return ofAll
    ? `${size}: with the rest more than ${MOST_BYTES / 1e9} GB`
    : `${size}, more than ${MOST_RATIO} times what it takes packed (no map does)`;
}

/** Not a byte further than it should have: the list of a zip may lie. */
function inflateUpTo(packed: Uint8Array, most: number): Uint8Array | string {
  const out = new Uint8Array(most);
  let length = 0;
  const inflate = new Inflate((chunk) => {
    if (length + chunk.length > most) throw new Error('longer');
    out.set(chunk, length);
    length += chunk.length;
  });
  const STEP = 16_384;
  try {
    for (let at = 0; at < packed.length || at === 0; at += STEP)
      inflate.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
  } catch (error) {
    return error instanceof Error && error.message === 'longer'
      ? 'unpacks to more than its list of files says'
      : 'its content is damaged';
  }
  return out.subarray(0, length);
}

function u16(bytes: Uint8Array, at: number): number {
  return bytes[at] | (bytes[at + 1] << 8);
}

function u32(bytes: Uint8Array, at: number): number {
  return (u16(bytes, at) | (u16(bytes, at + 2) << 16)) >>> 0;
}
