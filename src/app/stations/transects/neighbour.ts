/** Going through the transects one by one. */

/** The next or previous label in the list; stops at its ends. From none: the first or the last. */
export function neighbour(
  labels: readonly string[],
  from: string | null,
  step: 1 | -1,
): string | null {
  const at = from === null ? -1 : labels.indexOf(from);
  if (at < 0) return labels.at(step === 1 ? 0 : -1) ?? null;
  return labels[Math.min(labels.length - 1, Math.max(0, at + step))] ?? null;
}
