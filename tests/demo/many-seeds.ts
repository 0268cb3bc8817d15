/**
 * A study, not a test: the survey of the demo lake with seeds 1 to N in place of its one seed; how many of the intervals
 * hold the truth. `npx tsx tests/demo/many-seeds.ts 40`
 */

import { makeDemo } from '../../demo-lake/make.ts';
import { estimateSurvey } from '../../src/pipeline.ts';

async function study(seeds: number): Promise<void> {
  const held = { lake: 0, areas: 0 };
  const asked = { lake: 0, areas: 0 };
  for (let seed = 1; seed <= seeds; seed++) {
    const made = makeDemo(seed);
    const truth = JSON.parse(made.get('truth.json') ?? '{}');
    const files = new Map(
      [...made]
        .filter(([name]) => !/^(truth|datapackage)\.json$/.test(name))
        .map(([name, text]) => [name, new TextEncoder().encode(text)]),
    );
    const done = await estimateSurvey({ name: `seed ${seed}`, files });
    if (!done.ok)
      throw new Error(`seed ${seed}: ${done.findings.map((f) => f.message).join('; ')}`);
    const { abundance, treatments, model } = done.result.estimate;
    const lake = abundance?.mussels;
    if (!lake || lake.lower === null || lake.upper === null)
      throw new Error(`seed ${seed}: got no interval for the lake`);
    const inside = lake.lower <= truth.mussels && truth.mussels <= lake.upper;
    asked.lake++;
    if (inside) held.lake++;
    const missed: string[] = [];
    for (const area of treatments ?? []) {
      const real = truth.treatments.find((t: { name: string }) => t.name === area.name)?.mussels;
      const { lower, upper } = area.mussels ?? { lower: null, upper: null };
      if (lower === null || upper === null)
        throw new Error(`seed ${seed}: no interval, ${area.name}`);
      asked.areas++;
      if (lower <= real && real <= upper) held.areas++;
      else missed.push(area.name);
    }
    console.log(
      [
        `seed ${seed}: ${Math.round(lake.estimate)} (${Math.round(lake.lower)} to ${Math.round(lake.upper)})`,
        `truth ${truth.mussels}, ${inside ? 'held' : 'missed'}`,
        `${model?.family}${model?.transect_effect ? ' with transect effect' : ''}`,
        missed.length > 0 ? `areas missed: ${missed.join(', ')}` : 'all areas held',
      ].join('; '),
    );
  }
  console.log(
    `lake: ${held.lake} of ${asked.lake}; treatment areas: ${held.areas} of ${asked.areas}`,
  );
}

await study(Number(process.argv[2] ?? 40));
