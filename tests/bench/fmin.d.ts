/** fmin comes without types; what the bench uses of it (index.js: the package's main file exports nothing to modules). */
declare module 'fmin/index.js' {
  export function nelderMead(
    f: (x: number[]) => number,
    start: number[],
    options?: { maxIterations?: number; minErrorDelta?: number; sigma?: number },
  ): { x: number[]; fx: number };
}
