/** The zip worker, started when it is first needed. */

import * as Comlink from 'comlink';
import type { ZipTool } from './zip-worker.ts';

let tool: Comlink.Remote<ZipTool> | null = null;

export function zipTool(): Comlink.Remote<ZipTool> {
  tool ??= Comlink.wrap<ZipTool>(
    new Worker(new URL('./zip-worker.ts', import.meta.url), { type: 'module' }),
  );
  return tool;
}
