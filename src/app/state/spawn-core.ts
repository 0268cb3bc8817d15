/** Workers of the core. */

import * as Comlink from 'comlink';
import type { CoreWorker } from '../contract.ts';

/** A new core worker. */
export function spawnCore(): Worker {
  return new Worker(new URL('../worker/core-worker.ts', import.meta.url), { type: 'module' });
}

/** A core worker for one kind of work alone. */
export interface OwnCore<Work> {
  core: Work;
  /** ends its worker */
  end(): void;
  /** rejects when the worker breaks */
  broken: Promise<never>;
}

/** @typeParam Work what of the core worker is asked of it */
export function ownCore<Work>(): OwnCore<Work> {
  const worker = spawnCore();
  const broken = new Promise<never>((_, reject) => {
    worker.addEventListener('error', (event) =>
      reject(new Error(event.message || 'the worker could not start')),
    );
  });
  broken.catch(() => {}); // told by what waits for it
  return {
    core: Comlink.wrap<CoreWorker>(worker) as unknown as Work,
    end: () => worker.terminate(),
    broken,
  };
}
