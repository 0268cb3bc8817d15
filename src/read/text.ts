/** Bytes of a text file → its text, or the finding that says why it is none. */

import { errorAt, type Finding } from '../../shared/findings.ts';

export type DecodedText = { text: string; findings: [] } | { text: null; findings: [Finding] };

/** UTF-8 with or without a byte order mark; empty files, other encodings and NUL are errors. */
export function decodeText(bytes: Uint8Array, file: string): DecodedText {
  const utf16 =
    (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  if (utf16) {
    const message = 'not UTF-8 text: the file is UTF-16 (save it as CSV UTF-8)';
    return fault(file, 'not-utf-8', message);
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return fault(file, 'not-utf-8', `not UTF-8 text: ${firstBadLine(bytes)}`);
  }
  const nul = text.indexOf('\0');
  if (nul >= 0) {
    const line = text.slice(0, nul).split('\n').length;
    return fault(file, 'holds-nul', `a NUL character in line ${line}; plain text expected`);
  }
  if (text.trim() === '') return fault(file, 'file-empty', 'the file is empty');
  return { text, findings: [] };
}

function fault(table: string, code: string, message: string): DecodedText {
  return { text: null, findings: [errorAt({ table }, code, message)] };
}

/** Line feeds are never part of a longer UTF-8 sequence, so each line can be judged alone. */
function firstBadLine(bytes: Uint8Array): string {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let from = 0;
  for (let line = 1; from <= bytes.length; line++) {
    const feed = bytes.indexOf(10, from);
    const to = feed < 0 ? bytes.length : feed;
    try {
      decoder.decode(bytes.subarray(from, to));
    } catch {
      return `line ${line} holds bytes of another encoding (save the file as UTF-8)`;
    }
    from = to + 1;
  }
  return 'it holds bytes of another encoding (save the file as UTF-8)';
}
