/** Mutations of a file as such: bytes, encodings, line ends, truncation, its absence. */

import type { Random } from '../../../models/numbers/random.ts';
import { type Files, type Mutation, one, oneFile, setText, textOf } from './draw.ts';

const change =
  (edit: (random: Random, bytes: Uint8Array) => [Uint8Array, string]): Mutation =>
  (random, files) => {
    const name = oneFile(random, files, '');
    const bytes = name === null ? undefined : files.get(name);
    if (name === null || bytes === undefined || bytes.length === 0) return null;
    const [changed, what] = edit(random, Uint8Array.from(bytes));
    files.set(name, changed);
    return `${name}: ${what}`;
  };

const flipped = change((random, bytes) => {
  const places = Array.from({ length: 1 + random.integer(3) }, () => random.integer(bytes.length));
  for (const at of places) bytes[at] = random.integer(256);
  return [bytes, `byte ${places.join(', ')} changed`];
});

const truncated = change((random, bytes) => {
  const length = random.integer(bytes.length);
  return [bytes.slice(0, length), `cut after ${length} bytes`];
});

const spliced = change((random, bytes) => {
  const at = random.integer(bytes.length);
  const from = random.integer(bytes.length);
  const piece = bytes.slice(from, from + random.integer(2000));
  const joined = new Uint8Array(bytes.length + piece.length);
  joined.set(bytes.subarray(0, at));
  joined.set(piece, at);
  joined.set(bytes.subarray(at), at + piece.length);
  return [joined, `${piece.length} bytes of itself put in at ${at}`];
});

const emptied = change(() => [new Uint8Array(0), 'empty']);

const noise = change((random) => {
  const bytes = Uint8Array.from({ length: 1 + random.integer(3000) }, () => random.integer(256));
  return [bytes, 'random bytes'];
});

const encoded = change((random, bytes) => {
  const text = new TextDecoder().decode(bytes);
  const how = random.integer(4);
  if (how === 0) return [Uint8Array.from([0xef, 0xbb, 0xbf, ...bytes]), 'with a byte order mark'];
  if (how === 1) return [Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le')), 'in UTF-16'];
  if (how === 2) return [Uint8Array.from(Buffer.from(`é${text}`, 'latin1')), 'in Latin-1'];
  return [bytes.map((b, i) => (i % 97 === 50 ? 0 : b)), 'with NUL'];
});

/** Line ends of other systems, none at all, or many. */
const lineEnds: Mutation = (random, files) => {
  const name = oneFile(random, files, one(random, ['.csv', 'json']));
  if (name === null) return null;
  const end = one(random, ['\r\n', '\r', '\n\n', '', ' ', '\u2028', '\n\r', ',\n']);
  setText(files, name, textOf(files, name).replaceAll('\n', end));
  return `${name}: lines end with ${JSON.stringify(end)}`;
};

const quotes: Mutation = (random, files) => {
  const name = oneFile(random, files, '.csv');
  if (name === null) return null;
  const text = textOf(files, name);
  const at = random.integer(text.length + 1);
  setText(
    files,
    name,
    `${text.slice(0, at)}${one(random, ['"', '""', '"\n', ',"', '","'])}${text.slice(at)}`,
  );
  return `${name}: a quote at ${at}`;
};

/** Long repetitions: where work grows faster than the file. */
const repeated: Mutation = (random, files) => {
  const name = oneFile(random, files, '.csv');
  if (name === null) return null;
  const unit = one(random, [
    'a',
    '"',
    ',',
    '\n',
    'a,',
    '"a",',
    'transect,',
    ' ',
    '\t',
    '\r',
    'é',
    '" ',
    '"\n',
  ]);
  const long = unit.repeat(Math.ceil(one(random, [1000, 100_000, 1_000_000]) / unit.length));
  const text = textOf(files, name);
  setText(files, name, one(random, [long, `${text}${long}`, `${long}${text}`]));
  return `${name}: ${JSON.stringify(unit)} for ${long.length} characters`;
};

const missing: Mutation = (random, files) => {
  const name = oneFile(random, files, '');
  if (name === null) return null;
  files.delete(name);
  return `${name}: missing`;
};

const exchanged: Mutation = (random, files) => {
  const [a, b] = [oneFile(random, files, ''), oneFile(random, files, '')];
  const [first, second] = [files.get(a ?? ''), files.get(b ?? '')];
  if (a === null || b === null || a === b || first === undefined || second === undefined)
    return null;
  files.set(a, second);
  files.set(b, first);
  return `${a} and ${b} exchanged`;
};

export const BYTE_MUTATIONS: Record<string, Mutation> = {
  'bytes: changed': flipped,
  'bytes: cut': truncated,
  'bytes: spliced': spliced,
  'bytes: none': emptied,
  'bytes: noise': noise,
  'bytes: encoded': encoded,
  'line ends': lineEnds,
  quotes,
  repeated,
  missing,
  exchanged,
};

/** Files as `Files` hold them. */
export function copied(files: Files): Files {
  return new Map([...files].map(([name, bytes]) => [name, Uint8Array.from(bytes)]));
}
