/** Numbers by priority, the highest first; of equal ones the lower number, so that the same input gives the same order. */

export class Heap {
  private readonly items: number[] = [];
  private readonly priority: Float64Array;

  /** @param priority of every number that may be put in */
  constructor(priority: Float64Array) {
    this.priority = priority;
  }

  push(item: number): void {
    const { items } = this;
    let at = items.length;
    items.push(item);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!this.isBefore(item, items[up])) break;
      items[at] = items[up];
      at = up;
    }
    items[at] = item;
  }

  /** Undefined where none is left. */
  pop(): number | undefined {
    const { items } = this;
    const top = items[0];
    const last = items.pop();
    if (last === undefined || items.length === 0) return top;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && this.isBefore(items[down + 1], items[down])) down++;
      if (!this.isBefore(items[down], last)) break;
      items[at] = items[down];
      at = down;
    }
    items[at] = last;
    return top;
  }

  private isBefore(a: number, b: number): boolean {
    const [x, y] = [this.priority[a], this.priority[b]];
    return x > y || (x === y && a < b);
  }
}
