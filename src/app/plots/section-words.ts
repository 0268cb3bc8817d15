/** Sizes and words of a cross-section. */

/** Radius of a cluster of one, and of the largest in the survey at most. */
const SINGLE_PX = 3.2;
const LARGEST_PX = 15;

/** Radius of a cluster by the square root of its count; `largest` is the survey's largest cluster. */
export function clusterRadiusPx(count: number, largest: number): number {
  const perRoot = Math.min(SINGLE_PX, LARGEST_PX / Math.sqrt(Math.max(1, largest)));
  return Math.max(1, perRoot * Math.sqrt(count));
}

/** `depth drawn 3 times as large as length` */
export function exaggerationWords(times: number): string {
  if (times === 1) return 'depth and length drawn alike';
  return times > 1
    ? `depth drawn ${times} times as large as length`
    : `length drawn ${Number((1 / times).toFixed(1))} times as large as depth`;
}
