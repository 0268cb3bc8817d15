/** Marks of a log axis: 1, 2 and 5 times powers of ten within the span, fewer when they would be many. */
export function logTicks(from: number, to: number, most: number): number[] {
  const first = Math.floor(Math.log10(from));
  const last = Math.ceil(Math.log10(to));
  for (const steps of [[1, 1.5, 2, 3, 4, 5, 6, 8], [1, 2, 3, 5], [1, 2, 5], [1, 3], [1]]) {
    const ticks: number[] = [];
    for (let k = first; k <= last; k++)
      for (const step of steps) {
        const value = step * 10 ** k;
        if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9)) ticks.push(value);
      }
    if (ticks.length <= most) return ticks;
  }
  return [10 ** first, 10 ** last].filter((value) => value >= from && value <= to);
}
