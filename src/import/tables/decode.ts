/** Bytes of a text file from anywhere → its text, and what its encoding was taken for. */

export type Decoded =
  | { ok: true; text: string; remarks: string[] }
  | { ok: false; code: string; message: string };

/** So many bytes show whether every other one is 0, as in UTF-16 without a mark. */
const SAMPLE_BYTES = 4096;
/** Text of Latin letters has nearly all of its zeros on one side; half is enough where other letters are among them. */
const LEAST_ZEROS = 0.5;

/** UTF-8 and UTF-16 with and without a byte order mark; whatever is not valid UTF-8 is read as Windows-1252. */
export function decodeAny(bytes: Uint8Array): Decoded {
  if (bytes.length === 0) return { ok: false, code: 'file-empty', message: 'the file is empty' };
  const marked = byMark(bytes);
  if (marked !== null) return judged(decode(bytes, marked), []);
  const wide = wideWithoutMark(bytes);
  if (wide !== null)
    return judged(decode(bytes, wide), [
      'Every other byte is 0: read as UTF-16, although no mark says so.',
    ]);
  const utf8 = validUtf8(bytes);
  if (utf8 !== null) return judged(utf8, []);
  const foreign = bytes.reduce((count, byte) => count + (byte > 0x7f ? 1 : 0), 0);
  return judged(fromWindows1252(bytes), [
    `Not UTF-8: read as Windows-1252 (${foreign} letters are concerned; look at the accents in the names).`,
  ]);
}

function byMark(bytes: Uint8Array): string | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return null;
}

function wideWithoutMark(bytes: Uint8Array): string | null {
  const pairs = Math.floor(Math.min(bytes.length, SAMPLE_BYTES) / 2);
  if (pairs === 0) return null;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < pairs; i++) {
    if (bytes[2 * i] === 0) even++;
    if (bytes[2 * i + 1] === 0) odd++;
  }
  if (odd >= LEAST_ZEROS * pairs && even === 0) return 'utf-16le';
  if (even >= LEAST_ZEROS * pairs && odd === 0) return 'utf-16be';
  return null;
}

function validUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/**
 * Unicode's mapping table CP1252.TXT for 80 to 9F; what is not assigned stays a control character. By hand, as decoders of
 * some engines take Windows-1252 for Latin-1 (seen in Node 20).
 */
const FROM_80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

function fromWindows1252(bytes: Uint8Array): string {
  const wide = new Uint8Array(2 * bytes.length);
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i];
    const code = byte >= 0x80 && byte <= 0x9f ? FROM_80.charCodeAt(byte - 0x80) : byte;
    wide[2 * i] = code & 0xff;
    wide[2 * i + 1] = code >> 8;
  }
  return decode(wide, 'utf-16le');
}

function decode(bytes: Uint8Array, encoding: string): string {
  return new TextDecoder(encoding).decode(bytes);
}

function judged(text: string, remarks: string[]): Decoded {
  const control = text.search(CONTROL);
  if (control >= 0) {
    const line = text.slice(0, control).split('\n').length;
    const sign = text.charCodeAt(control).toString(16).padStart(4, '0');
    const message = `no text: line ${line} holds the control character \\u${sign} (a table of text or a workbook expected)`;
    return { ok: false, code: 'not-text', message };
  }
  if (text.trim() === '') return { ok: false, code: 'file-empty', message: 'the file is empty' };
  return { ok: true, text, remarks };
}

/** What no table holds; tab, line feed, form feed and carriage return are let through. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const CONTROL = /[\u0000-\u0008\u000b\u000e-\u0019\u001b-\u001f]/;
