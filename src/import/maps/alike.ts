/** Layers without a known system whose numbers lie together have one system: it is asked once. */

import type { Numbers } from './numbers.ts';
import { boxOf } from './rings.ts';

type Box = [number, number, number, number];

/** In the order of the size of their numbers, so that the same files give the same groups whatever they are called. */
export function groupsAlike(open: readonly Numbers[]): Numbers[][] {
  const groups: { box: Box; members: Numbers[] }[] = [];
  const bySize = open
    .map((numbers) => ({ numbers, box: boxOf(numbers.positions) }))
    .sort((a, b) => spanOf(b.box) - spanOf(a.box));
  for (const { numbers, box } of bySize) {
    const group = groups.find((g) => liesBy(box, g.box) && sameName(numbers, g.members[0]));
    if (group === undefined) groups.push({ box, members: [numbers] });
    else {
      group.members.push(numbers);
      group.box = around(group.box, box);
    }
  }
  return groups.sort((a, b) => magnitude(a.box) - magnitude(b.box)).map(({ members }) => members);
}

/** What a file says of itself counts: a doubted name does not spread to what has none. */
function sameName(a: Numbers, b: Numbers): boolean {
  return (a.system?.proj ?? a.refused) === (b.system?.proj ?? b.refused);
}

/** Within one size of the larger box: a layer of one bay beside the lake is near it by any measure of the lake. */
function liesBy(box: Box, other: Box): boolean {
  const reach = Math.max(spanOf(box), spanOf(other));
  return (
    box[0] <= other[2] + reach &&
    box[2] >= other[0] - reach &&
    box[1] <= other[3] + reach &&
    box[3] >= other[1] - reach
  );
}

function spanOf(box: Box): number {
  return Math.hypot(box[2] - box[0], box[3] - box[1]);
}

function around(a: Box, b: Box): Box {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

function magnitude(box: Box): number {
  return Math.abs(box[0] + box[2]) + Math.abs(box[1] + box[3]);
}
