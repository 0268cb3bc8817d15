/** What open files need of this machine: compression, checksums and the database library, loaded when it is asked for. */

import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { deflate } from 'node:zlib';
import type { OpenTools } from '../publish/open/index.ts';
import { packZip } from '../publish/pack-zip.ts';

const deflated = promisify(deflate);

export function openTools(): OpenTools {
  return {
    async sql() {
      const { default: start } = await import('sql.js/dist/sql-wasm-inline.js');
      return start();
    },
    deflate: (bytes) => deflated(bytes),
    sha256: async (bytes) => createHash('sha256').update(bytes).digest('hex'),
    zip: packZip,
    at: new Date().toISOString(),
  };
}
