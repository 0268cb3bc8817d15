/**
 * A figure of the report read back from its markup: places are held against the figure's own tick marks, so that expected
 * values do not depend on the layout. Places are written to 0.1 of a unit, of some 200 along an axis: values can be compared
 * to as many digits as that leaves of their scale.
 */

import { expect } from 'vitest';

/** Where tick labels stand along an axis: label → place. */
export function ticks(svg: string, axis: 'x' | 'y'): Map<string, number> {
  const found = new Map<string, number>();
  const pattern =
    axis === 'x'
      ? /<line x1="([\d.]+)" x2="[\d.]+" y1="[\d.]+" y2="[\d.]+" stroke="#d9d4c7"\/><text x="\1" y="[\d.]+">([^<]*)<\/text>/g
      : /<line x1="[\d.]+" x2="[\d.]+" y1="([\d.]+)" y2="\1" stroke="#d9d4c7"\/><text [^>]*>([^<]*)<\/text>/g;
  for (const [, at, label] of svg.matchAll(pattern)) found.set(label!, Number(at));
  return found;
}

/** The value at a place, by two of the axis' own ticks. */
export function reader(svg: string, axis: 'x' | 'y', a: string, b: string): (at: number) => number {
  const marks = ticks(svg, axis);
  const number = (label: string) => Number.parseFloat(label.replace('−', '-').replace(',', ''));
  const [from, to] = [marks.get(a)!, marks.get(b)!];
  expect(from, `tick ${a}`).toBeTypeOf('number');
  expect(to, `tick ${b}`).toBeTypeOf('number');
  return (at) => number(a) + ((at - from) / (to - from)) * (number(b) - number(a));
}

export const numbers = (svg: string, pattern: RegExp) =>
  [...svg.matchAll(pattern)].map((m) => Number(m[1]));
