/** Circles among files: ways along imports, of types too, that come back to where they began. */

import { posix } from 'node:path';
import { importsOf } from './rule.ts';

/** Files by path from the repository's root, with what each imports of the others. */
export type ImportGraph = ReadonlyMap<string, readonly string[]>;

/** @param sources text of each file by its path; what they import from outside of them is left out */
export function importGraph(sources: ReadonlyMap<string, string>): ImportGraph {
  const graph = new Map<string, string[]>();
  for (const [path, text] of sources) {
    const own = importsOf(text)
      .filter((target) => target.startsWith('.'))
      .map((target) => posix.join(posix.dirname(path), target.replace(/\?.*$/, '')))
      .filter((target) => sources.has(target));
    graph.set(path, [...new Set(own)]);
  }
  return graph;
}

/**
 * Groups of files each of which leads to every other of its group (strongly connected components, Tarjan 1972), those of
 * one file only where it imports itself. Sorted, so that they can be compared.
 */
export function circlesOf(graph: ImportGraph): string[][] {
  const order = new Map<string, number>();
  const lowest = new Map<string, number>();
  const open: string[] = [];
  const isOpen = new Set<string>();
  const circles: string[][] = [];
  const visit = (path: string): number => {
    const number = order.size;
    order.set(path, number);
    open.push(path);
    isOpen.add(path);
    let low = number;
    for (const next of graph.get(path) ?? []) {
      if (!order.has(next)) low = Math.min(low, visit(next));
      else if (isOpen.has(next)) low = Math.min(low, order.get(next) ?? low);
    }
    lowest.set(path, low);
    if (low === number) {
      const group = open.splice(open.indexOf(path));
      for (const member of group) isOpen.delete(member);
      if (group.length > 1 || graph.get(path)?.includes(path)) circles.push(group.sort());
    }
    return low;
  };
  for (const path of graph.keys()) if (!order.has(path)) visit(path);
  return circles.sort((a, b) => (a[0] ?? '').localeCompare(b[0] ?? ''));
}

/** The shortest way round within a group, its first file repeated at the end: what a failing test shows. */
export function wayRound(graph: ImportGraph, group: readonly string[]): string[] {
  const inside = new Set(group);
  let shortest: string[] | null = null;
  for (const start of group) {
    const before = new Map<string, string>();
    const queue = [start];
    for (const path of queue) {
      const next = (graph.get(path) ?? []).filter((p) => inside.has(p));
      if (next.includes(start)) {
        const way = [start];
        for (let at = path; at !== start; at = before.get(at) ?? start) way.unshift(at);
        way.unshift(start);
        if (shortest === null || way.length < shortest.length) shortest = way;
        break;
      }
      for (const p of next) {
        if (p === start || before.has(p)) continue;
        before.set(p, path);
        queue.push(p);
      }
    }
  }
  if (shortest === null) throw new RangeError(`got ${group.join(', ')}, expected a circle`);
  return shortest;
}
