/** Files as one zip. */

import {
  configure,
  Uint8ArrayReader,
  Uint8ArrayWriter,
  ZipWriter,
} from '@zip.js/zip.js/lib/zip-core-native.js';

// in the page this runs in a worker of its own already
configure({ useWebWorkers: false });

/** @param at ISO 8601; all of the files get this time */
export async function packZip(
  files: ReadonlyMap<string, Uint8Array | string>,
  at: string,
): Promise<Uint8Array> {
  const writer = new ZipWriter(new Uint8ArrayWriter(), { lastModDate: new Date(at) });
  for (const [name, content] of files) {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    await writer.add(name, new Uint8ArrayReader(bytes));
  }
  return writer.close();
}
