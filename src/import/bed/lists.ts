/** Not by spreading: a call takes some 100,000 arguments, and a map may have more features. */
export function append<T>(list: T[], more: readonly T[]): void {
  for (const one of more) list.push(one);
}
