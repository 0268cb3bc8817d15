/** A table of observed against expected clusters: classes as rows, and what each segment adds to a row as its parts. */

import type { FittedSegment } from './fitted.ts';

/** Clusters of one class; the variance is that of what was observed, under the model. */
export interface Compared {
  observed: number;
  expected: number;
  variance: number;
}

/** What one segment adds to a row. */
export interface Part {
  row: number;
  segment: number;
  transect: number;
}

/** Classes are the same when their fields are. `More` is what a part's expected clusters follow from. */
export class Table<Class extends object, More extends object = object> {
  readonly rows: { of: Class; observed: number }[] = [];
  /** in the order of the segments */
  readonly parts: (Part & More)[] = [];
  private readonly known = new Map<string, number>();

  add(of: Class, part: Omit<Part, 'row'> & More): void {
    this.parts.push({ ...part, row: this.rowOf(of) });
  }

  observe(of: Class): void {
    this.rows[this.rowOf(of)].observed++;
  }

  private rowOf(of: Class): number {
    const key = Object.values(of).join();
    let row = this.known.get(key);
    if (row === undefined) {
      row = this.rows.push({ of, observed: 0 }) - 1;
      this.known.set(key, row);
    }
    return row;
  }

  /**
   * Segments of one transect share its effect, which adds (ΣE)² expm1(τ²) a transect to a row's variance.
   * @param expected clusters of each part
   */
  compared(
    expected: Float64Array,
    fitted: readonly FittedSegment[],
    tau: number,
  ): (Class & Compared)[] {
    const rows = this.rows.map(() => ({
      expected: 0,
      own: 0,
      byTransect: new Map<number, number>(),
    }));
    for (const [i, { row, segment, transect }] of this.parts.entries()) {
      const sum = rows[row];
      const f = fitted[segment];
      sum.expected += expected[i];
      sum.own += expected[i] * (f.expected > 0 ? f.ownVariance / f.expected : 1);
      sum.byTransect.set(transect, (sum.byTransect.get(transect) ?? 0) + expected[i]);
    }
    const shared = Math.expm1(tau * tau);
    return this.rows.map(({ of, observed }, r) => {
      let squares = 0;
      for (const e of rows[r].byTransect.values()) squares += e * e;
      const { expected: sum, own } = rows[r];
      return { ...of, observed, expected: sum, variance: own + squares * shared };
    });
  }
}
