/** A file that was named on the command line → its bytes, or one sentence on why not. */

import { readFile } from 'node:fs/promises';
import { InputError } from './core.ts';

const REASONS: Record<string, string> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EISDIR: 'this is a folder, a file was expected',
  EACCES: 'it is not allowed to read this file',
  EPERM: 'it is not allowed to read this file',
  ELOOP: 'a link that leads to itself',
};

/**
 * @param option that named it; left out: an argument did
 * @throws InputError with the file and why it cannot be read
 */
export async function readGivenFile(path: string, option?: string): Promise<Buffer> {
  return readFile(path).catch(({ code, message }: NodeJS.ErrnoException) => {
    const why = REASONS[code ?? ''] ?? `cannot be read (${message})`;
    throw new InputError(`${path}: ${why}${option === undefined ? '' : ` (${option})`}`);
  });
}
