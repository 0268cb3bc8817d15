/**
 * The workers behind the page. A run happens in one of them while the other keeps the result that is on the screen, so the
 * map can be painted and asked while a new estimate is made, and a run is cancelled by ending its worker.
 */

import * as Comlink from 'comlink';
import type { Finding } from '../../../shared/findings.ts';
import type { Repair } from '../../../shared/repairs.ts';
import type { CoreWorker, JudgedView, ResultView, Work } from '../contract.ts';

/** Of more cells than this only one result is kept in memory. */
const LARGE_GRID_CELLS = 500_000;
const NOBODY = Comlink.proxy(() => {});

type Estimated = Awaited<ReturnType<CoreWorker['estimate']>>;

interface Seat {
  worker: Worker;
  remote: Comlink.Remote<CoreWorker>;
  /** a worker that could not start tells it here */
  broken: Promise<never>;
  /** it has run before */
  warm: boolean;
  /** it is being warmed up, and would keep a run waiting */
  warming: boolean;
}

export interface RunListener {
  progress(step: string, share: number): void;
  judged(judged: JudgedView): void;
  /** the tables stop the estimate, or the model does: then the findings are in `judged` */
  faulty(judged: JudgedView): void;
  estimated(result: ResultView, core: Comlink.Remote<CoreWorker>): void;
  /** of a survey that was judged without: told after everything else, with its fingerprint */
  repaired(repairs: Repair[], fingerprint: string): void;
  failed(message: string): void;
}

export interface Engine {
  /** the worker that holds the result on the screen */
  core(): Comlink.Remote<CoreWorker>;
  /** judges and estimates; a run under way is given up */
  run(work: Work, listener: RunListener): Promise<void>;
  /** judges without an estimate, in the worker that holds the result; not while a run is under way */
  judge(work: Work): Promise<JudgedView>;
  /** gives up the run under way; the result on the screen stays */
  cancel(): void;
  /** somebody is where corrections and choices are made: the next run should not be a worker's first */
  expectChange(): void;
  end(): void;
}

export function startEngine(spawn: () => Worker): Engine {
  let kept = seat();
  let spare: Seat | null = kept;
  let running: Seat | null = null;
  /** what the result on the screen was made of; null where a second one would take too much memory */
  let shown: Work | null = null;
  /** nothing was judged yet: what can wait, waits for the first number */
  let first = true;

  function seat(): Seat {
    const worker = spawn();
    const broken = new Promise<never>((_, reject) => {
      worker.addEventListener('error', (event) =>
        reject(new Error(event.message || 'the worker could not start')),
      );
    });
    broken.catch(() => {}); // told by the run that waits for it
    return {
      worker,
      remote: Comlink.wrap<CoreWorker>(worker),
      broken,
      warm: false,
      warming: false,
    };
  }

  function cancel(): void {
    if (running === null) return;
    running.worker.terminate();
    if (running === kept) kept = seat();
    spare = spare === running ? null : spare;
    running = null;
  }

  /** What the worker promises, unless it breaks; undefined when the run was given up meanwhile. */
  async function unlessGivenUp<T>(own: Seat, promise: Promise<T>): Promise<T | undefined> {
    const value = await Promise.race([promise, own.broken]);
    return running === own ? value : undefined;
  }

  async function run(work: Work, listener: RunListener): Promise<void> {
    cancel();
    if (spare?.warming) {
      spare.worker.terminate();
      spare = null;
    }
    const own = spare ?? seat();
    spare = null;
    running = own;
    own.warm = true;
    try {
      const judged = await unlessGivenUp(own, own.remote.judge(work.files, work.name, first));
      if (judged === undefined) return;
      first = false;
      if (!judged.ok) {
        finish(own);
        listener.faulty(judged);
        return;
      }
      listener.judged(judged);
      const done = await unlessGivenUp<Estimated>(
        own,
        own.remote.estimate(
          work.files,
          work.name,
          Comlink.proxy((step: string, share: number) => {
            if (running === own) listener.progress(step, share);
          }),
        ),
      );
      if (done === undefined) return;
      if (!done.ok) {
        finish(own);
        listener.faulty(withFindings(judged, done.findings));
        await tellRepairs(own, judged, work, listener);
        return;
      }
      const old = kept;
      kept = own;
      running = null;
      if (old !== own) retire(old, cellsOf(done.result));
      spare ??= seat(); // started before it is needed
      shown = cellsOf(done.result) <= LARGE_GRID_CELLS ? work : null;
      // the worker sends the lake once, with the judged survey
      listener.estimated({ ...done.result, lake: judged.lake }, own.remote);
      await tellRepairs(own, judged, work, listener);
    } catch (error) {
      if (running !== own) return;
      cancel();
      listener.failed((error as Error).message);
    }
  }

  async function tellRepairs(
    { remote, broken }: Seat,
    { repairs, fingerprint }: JudgedView,
    { files, name }: Work,
    listener: RunListener,
  ): Promise<void> {
    if (repairs !== null) return;
    try {
      listener.repaired(await Promise.race([remote.repairs(files, name), broken]), fingerprint);
    } catch (error) {
      listener.failed((error as Error).message);
    }
  }

  /** Once on each worker: code that has run before runs several times faster. */
  async function expectChange(): Promise<void> {
    const one = spare;
    if (one === null || one.warm || shown === null || running !== null) return;
    one.warm = true;
    one.warming = true;
    try {
      await one.remote.judge(shown.files, shown.name);
      if (spare === one) await one.remote.estimate(shown.files, shown.name, NOBODY);
    } catch {
      // told when it happens in a run
    } finally {
      one.warming = false;
    }
  }

  function finish(own: Seat): void {
    running = null;
    spare = own;
  }

  function retire(old: Seat, cells: number): void {
    if (cells > LARGE_GRID_CELLS) old.worker.terminate();
    else spare = old;
  }

  return {
    core: () => kept.remote,
    judge: ({ files, name }) => Promise.race([kept.remote.judge(files, name), kept.broken]),
    run,
    cancel,
    expectChange: () => void expectChange(),
    end() {
      for (const one of new Set([kept, spare, running])) one?.worker.terminate();
    },
  };
}

function withFindings(judged: JudgedView, findings: Finding[]): JudgedView {
  return { ...judged, findings, ok: false };
}

function cellsOf({ grid }: ResultView): number {
  return grid === null ? 0 : grid.nx * grid.ny;
}
