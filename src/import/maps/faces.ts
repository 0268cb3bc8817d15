/** Networks of lines that fork: the parts that they close, and the line around all of it. */

import type { Edge, Line } from './network.ts';

interface Half {
  edge: Edge;
  from: number;
  to: number;
  line: Line;
  angle: number;
}

/** Faces of a network without crossings: at each node the way out that lies next to the way in, seen clockwise from it. */
export function facesOf(edges: readonly Edge[]): { around: Line; faces: Line[] } {
  const halves = edges.flatMap((edge): Half[] => {
    const back = edge.line.toReversed();
    return [
      { edge, from: edge.a, to: edge.b, line: edge.line, angle: leaving(edge.line) },
      { edge, from: edge.b, to: edge.a, line: back, angle: leaving(back) },
    ];
  });
  const out = new Map<number, Half[]>();
  for (const half of halves) out.set(half.from, [...(out.get(half.from) ?? []), half]);
  for (const list of out.values()) list.sort((a, b) => a.angle - b.angle);
  // both directions of an edge stand side by side
  const place = new Map(halves.map((half, i) => [half, i]));
  const twin = (half: Half) => halves[place.get(half)! ^ 1];
  const seen = new Set<Half>();
  const loops: { line: Line; area: number }[] = [];
  for (const start of halves) {
    if (seen.has(start)) continue;
    const line: Line = [start.line[0]];
    for (let half = start; !seen.has(half); ) {
      seen.add(half);
      for (const position of half.line.slice(1)) line.push(position);
      const ways = out.get(half.to)!;
      half = ways[(ways.indexOf(twin(half)) + ways.length - 1) % ways.length];
    }
    loops.push({ line, area: signedArea(line) });
  }
  // the face outside runs with the clock
  const around = loops.reduce((least, loop) => (loop.area < least.area ? loop : least));
  return {
    around: around.line.toReversed(),
    faces: loops.filter((loop) => loop.area > 0).map(({ line }) => line),
  };
}

function leaving(line: Line): number {
  const next = line.find((p) => p[0] !== line[0][0] || p[1] !== line[0][1]) ?? line[0];
  return Math.atan2(next[1] - line[0][1], next[0] - line[0][0]);
}

function signedArea(line: Line): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++)
    sum += line[i - 1][0] * line[i][1] - line[i][0] * line[i - 1][1];
  return sum / 2;
}
