/** Which files a result was made from, so that it can be made again from the same. */

import type { InputFile } from '../../shared/result.ts';
import { sha256 } from '../../shared/sha256.ts';

/** In the order of their names. */
export function inputFiles(files: ReadonlyMap<string, Uint8Array>): InputFile[] {
  return [...files]
    .map(([file, bytes]) => ({ file, bytes: bytes.length, sha256: sha256(bytes) }))
    .sort((a, b) => (a.file < b.file ? -1 : 1));
}
