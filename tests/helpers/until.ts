/** Waits for what other processes do. */

/** @throws when it does not hold within `patienceMs` */
export async function until(
  holds: () => boolean,
  patienceMs: number,
  everyMs = 100,
): Promise<void> {
  const latest = Date.now() + patienceMs;
  while (!holds()) {
    if (Date.now() > latest)
      throw new Error(`it did not come to that within ${patienceMs / 1000} s`);
    await new Promise((done) => setTimeout(done, everyMs));
  }
}
