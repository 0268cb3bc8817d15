/** Work that is the same function over many numbers, as plain data that can cross to another thread. */

import { type BootstrapTask, bootstrapperOf, type Replicate } from './bootstrap.ts';
import { type RehearsalInput, type Rehearsed, rehearser } from './rehearse.ts';

export type Task =
  | { kind: 'bootstrap'; input: BootstrapTask }
  | { kind: 'rehearsal'; input: RehearsalInput };

/** What one number of a task gives. */
export interface Outcome {
  bootstrap: Replicate | null;
  rehearsal: Rehearsed;
}

/** Gives the results of a task for 0 … count − 1, in order. */
export type RunMany = <K extends Task['kind']>(
  task: Extract<Task, { kind: K }>,
  count: number,
  progress: (share: number) => void,
) => Promise<Outcome[K][]>;

/** The function of a task; costly to make, so once a thread. */
export function performer(task: Task): (index: number) => Replicate | null | Rehearsed {
  switch (task.kind) {
    case 'bootstrap':
      return bootstrapperOf(task.input);
    case 'rehearsal':
      return rehearser(task.input);
  }
}

/** On the calling thread, from the first to the last. */
export const runHere: RunMany = async (task, count, progress) => {
  const perform = performer(task);
  const results = [];
  for (let i = 0; i < count; i++) {
    results.push(perform(i));
    progress((i + 1) / count);
  }
  return results as Outcome[typeof task.kind][];
};
