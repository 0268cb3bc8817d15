/** What open files need of the browser: its own compression and checksums, and the database library, loaded when it is asked for. */

import type { OpenTools } from '../../publish/open/index.ts';
import { packZip } from '../../publish/pack-zip.ts';

export function openTools(): OpenTools {
  return {
    async sql() {
      const { default: start } = await import('sql.js/dist/sql-wasm-inline.js');
      return start();
    },
    async deflate(bytes) {
      const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream('deflate'));
      return new Uint8Array(await new Response(stream).arrayBuffer());
    },
    async sha256(bytes) {
      const digest = await crypto.subtle.digest('SHA-256', bytes as BufferSource);
      return [...new Uint8Array(digest)].map((b) => b.toString(16).padStart(2, '0')).join('');
    },
    zip: packZip,
    at: new Date().toISOString(),
  };
}
