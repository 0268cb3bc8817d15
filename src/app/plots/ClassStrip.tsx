/** The map's seven density classes as a strip along a log axis, so that a curve can be read in the map's colours. */

import { CLASS_BREAKS, classColour } from '../../present/ramp.ts';

export function ClassStrip({
  fromPower,
  toPower,
  x,
  y,
  heightPx,
}: {
  fromPower: number;
  toPower: number;
  /** density to pixels */
  x: (musselsPerM2: number) => number;
  y: number;
  heightPx: number;
}) {
  const least = 10 ** fromPower;
  const most = 10 ** toPower;
  const edges = [0, ...CLASS_BREAKS, Number.POSITIVE_INFINITY];
  return edges.slice(0, -1).map((from, k) => {
    const a = Math.max(from, least);
    const b = Math.min(edges[k + 1], most);
    if (!(b > a)) return null;
    return (
      <rect
        key={from}
        x={x(a)}
        width={x(b) - x(a)}
        y={y}
        height={heightPx}
        style={{ fill: `light-dark(${classColour(k, false)}, ${classColour(k, true)})` }}
      />
    );
  });
}
