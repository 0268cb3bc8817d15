/** A new core worker. */
export function spawnCore(): Worker {
  return new Worker(new URL('../worker/core-worker.ts', import.meta.url), { type: 'module' });
}
