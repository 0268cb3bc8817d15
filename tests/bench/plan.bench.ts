/** Precision against effort on the demo lake: 20 numbers of transects, 50 designs each, nothing fitted again. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type LaidLake, layLake } from '../../src/lake/index.ts';
import { makePlan, planFrame, planGround, planRequest } from '../../src/pipeline/plan.ts';
import { estimateJudged, judge } from '../../src/pipeline.ts';

export default async function benches(root: string) {
  const folder = join(root, 'demo-lake');
  const files = new Map(
    readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => [name, new Uint8Array(readFileSync(join(folder, name)))]),
  );
  const lakes: LaidLake[] = [];
  const judged = await judge({ name: 'demo-lake', files }, undefined, (input) => {
    const laid = layLake(input);
    lakes.push(laid);
    return laid;
  });
  const estimated = await estimateJudged(judged, { replicates: 0 });
  if (!estimated.ok) throw new Error('the demo lake has no estimate');
  const ground = planGround(estimated, judged.prepared, lakes[0] ?? null, []);
  if (ground === null) throw new Error('the demo lake has no places to plan for');
  const request = planRequest(ground, {
    target: { kind: 'transects', transects: 20 },
    added: false,
    allocation: 'best',
    seed: 1,
    dive: {},
    sections: null,
    startDepthsM: null,
  });
  const frame = planFrame(ground, request);
  return [
    {
      name: 'precision curve of the demo lake, places and information too',
      run: () => void makePlan(ground, planFrame(ground, request), request, []),
    },
    {
      name: 'another target from the same places',
      run: () => void makePlan(ground, frame, request, []),
    },
  ];
}
