/** Work that is asked for faster than it can be done: one at a time, and of those that wait only the latest. */

/**
 * Calls `work` with the latest argument each time it is free. A failure is handed to `failed` and the next one runs.
 */
export function latestOnly<Argument>(
  work: (argument: Argument) => Promise<void>,
  failed: (error: unknown) => void,
): (argument: Argument) => void {
  let waiting: { argument: Argument } | null = null;
  let busy = false;
  return (argument) => {
    waiting = { argument };
    if (!busy) void run();
  };

  async function run(): Promise<void> {
    busy = true;
    while (waiting !== null) {
      const next: { argument: Argument } = waiting;
      waiting = null;
      try {
        await work(next.argument);
      } catch (error) {
        failed(error);
      }
    }
    busy = false;
  }
}
