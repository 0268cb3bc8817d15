/** What the keys do on a plot: along a depth, and from transect to transect. */

/** Finest step of a depth, and by Page Up and Page Down. */
export const STEP_M = 0.1;
const PAGE_M = 1;

/** The depth after a key; null = none any more, undefined = not a key of ours. Down is deeper. */
export function afterKey(
  key: string,
  depthM: number,
  fromM: number,
  toM: number,
): number | null | undefined {
  switch (key) {
    case 'ArrowDown':
    case 'ArrowRight':
      return depthM + STEP_M;
    case 'ArrowUp':
    case 'ArrowLeft':
      return depthM - STEP_M;
    case 'PageDown':
      return depthM + PAGE_M;
    case 'PageUp':
      return depthM - PAGE_M;
    case 'Home':
      return fromM;
    case 'End':
      return toM;
    case 'Escape':
      return null;
    default:
      return undefined;
  }
}

/** Index after a key; null = none any more, undefined = not a key of ours. `at` is −1 when none is chosen. */
export function transectAfterKey(
  key: string,
  at: number,
  count: number,
): number | null | undefined {
  if (count === 0) return undefined;
  switch (key) {
    case 'ArrowDown':
    case 'ArrowRight':
      return Math.min(count - 1, at + 1);
    case 'ArrowUp':
    case 'ArrowLeft':
      return at < 0 ? count - 1 : Math.max(0, at - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    case 'Escape':
      return null;
    default:
      return undefined;
  }
}
