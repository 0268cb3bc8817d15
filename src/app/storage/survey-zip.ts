/**
 * Zips as they come from anybody: only files that a survey can hold are unpacked, their bytes are counted while they are
 * inflated, and size and checksum must be what the zip says. Everything stops at a stated limit.
 */

import {
  BlobReader,
  configure,
  type Entry,
  type FileEntry,
  Uint8ArrayReader,
  ZipReader,
} from '@zip.js/zip.js/lib/zip-core-native.js';
import { MOST_SURVEY_BYTES, SURVEY_FILES } from '../../../shared/survey-files.ts';
import { CHANGES_FILE } from './history-file.ts';

// this runs in a worker of its own already, and the browser's own inflater is the fastest
configure({ useWebWorkers: false });

/** A file and where it lay: `survey 2026/transects.csv`. */
export interface LooseFile {
  path: string;
  bytes: Uint8Array;
}

export interface ZipLimits {
  /** of all files of surveys in it together, unpacked */
  bytes: number;
  /** of any kind */
  entries: number;
  /** files of surveys: each is unpacked, in some milliseconds however small it is */
  files: number;
}

const ZIP_LIMITS: ZipLimits = { bytes: MOST_SURVEY_BYTES, entries: 20_000, files: 1_000 };

const MEGA = 1e6;

/** What is wrong with a zip, in a sentence for the reader. */
export class BadZip extends Error {}

/**
 * The files of surveys, wherever they lie in the zip; the bytes of one stand once in memory.
 * @throws BadZip when it cannot be read, holds too much, or a file is not what the zip says of it
 */
export async function unpackSurvey(
  zip: Blob | Uint8Array,
  limits: ZipLimits = ZIP_LIMITS,
): Promise<LooseFile[]> {
  const source = zip instanceof Uint8Array ? new Uint8ArrayReader(zip) : new BlobReader(zip);
  const reader = new ZipReader(source, { checkSignature: true, strictness: 'strict' });
  try {
    const loose: LooseFile[] = [];
    // all is counted before anything is unpacked
    for (const entry of await wantedEntries(reader, limits))
      loose.push({ path: entry.filename, bytes: await inflated(entry) });
    return loose;
  } catch (error) {
    if (error instanceof BadZip) throw error;
    throw new BadZip(`The zip cannot be read: ${(error as Error).message}.`);
  } finally {
    await reader.close().catch(() => {}); // nothing is held that matters any more
  }
}

/** Those of surveys, within the limits. */
async function wantedEntries(reader: ZipReader<unknown>, limits: ZipLimits): Promise<FileEntry[]> {
  const wanted: FileEntry[] = [];
  let entries = 0;
  let total = 0;
  const taken = new Set<string>();
  for await (const entry of reader.getEntriesGenerator()) {
    entries += 1;
    if (entries > limits.entries)
      throw new BadZip(`The zip holds more than ${limits.entries} files, which no survey does.`);
    if (!isWanted(entry)) continue;
    const path = entry.filename;
    if (taken.has(path.toLowerCase()))
      throw new BadZip(`The zip holds ${path} twice: it cannot be said which one counts.`);
    taken.add(path.toLowerCase());
    if (entry.encrypted)
      throw new BadZip(`${path} in the zip is locked with a password; save the zip without one.`);
    total += entry.uncompressedSize;
    if (total > limits.bytes)
      throw new BadZip(
        `The survey in the zip unpacks to more than ${limits.bytes / MEGA} MB, which no survey does.`,
      );
    wanted.push(entry);
    if (wanted.length > limits.files)
      throw new BadZip(
        `The zip holds more than ${limits.files} files of surveys; one survey expected.`,
      );
  }
  return wanted;
}

const NAMES = new Set<string>([...SURVEY_FILES, CHANGES_FILE]);

function isWanted(entry: Entry): entry is FileEntry {
  const { directory, filename } = entry;
  const name = filename.slice(filename.lastIndexOf('/') + 1).toLowerCase();
  return !directory && NAMES.has(name) && !filename.startsWith('__MACOSX/');
}

/** Room for what the zip promises and not a byte more: whoever lies about a size is found out while it is unpacked. */
async function inflated(entry: FileEntry): Promise<Uint8Array> {
  const { filename, uncompressedSize } = entry;
  const bytes = new Uint8Array(uncompressedSize);
  let filled = 0;
  const wrongSize = (): BadZip =>
    new BadZip(
      `${filename} in the zip is not as long as the zip says (${uncompressedSize} bytes): it is damaged.`,
    );
  let lied = false;
  const sink = new WritableStream<Uint8Array>({
    write(chunk) {
      if (filled + chunk.length > uncompressedSize) {
        lied = true;
        throw wrongSize();
      }
      bytes.set(chunk, filled);
      filled += chunk.length;
    },
  });
  try {
    await entry.getData(sink);
  } catch (error) {
    if (lied) throw wrongSize();
    throw new BadZip(`${filename} in the zip is damaged (${(error as Error).message}).`);
  }
  if (filled !== uncompressedSize) throw wrongSize();
  return bytes;
}
