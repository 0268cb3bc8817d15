/**
 * The winner's curse of chosen areas: the demo lake's survey simulated from its truth, estimated, an area chosen for a
 * budget, and its share held against the true one: as it looks, and corrected. Beside them the share of the truly best
 * area, which no data chose: what it is off by, the model errs by and not the choice.
 */

import { join } from 'node:path';
import { NotEstimable } from '../../../models/errors.ts';
import { chooseModel } from '../../../models/fit/choice.ts';
import { stream } from '../../../models/numbers/random.ts';
import { plantShares } from '../../../models/predict.ts';
import { detectionsOf, searchedSegments, simulateClusters } from '../../../models/simulate.ts';
import { logDensity, meanClusterSize, type Truth } from '../../../models/truth.ts';
import { readSurveyFolder, readTruth } from '../../../src/cli/folder.ts';
import { mappedHabitats } from '../../../src/estimate/rows.ts';
import {
  type Again,
  carriedEstimate,
  estimateJudged,
  judge,
  type LaidLake,
  layLake,
} from '../../../src/pipeline.ts';
import { blockValues } from '../../../src/treat/blocks.ts';
import { choose } from '../../../src/treat/choice.ts';
import type { Chosen } from '../../../src/treat/chosen.ts';
import { treatBasis } from '../../../src/treat/index.ts';
import { heldBy, optimismDraws } from '../../../src/treat/optimism.ts';
import { choiceBasis } from '../../../src/treat/proposals.ts';
import { unitValues } from '../../../src/treat/units.ts';

const DEMO = join(process.cwd(), 'demo-lake');
const SEED = 991;
const DRAWS = 60;
const BUDGETS_HA = [2, 20];
/** All transects, and every fifth: with few there is something to choose wrongly. */
const EVERY = [1, 5];
const REQUEST = {
  budget_m3: null,
  layer_m: null,
  least_area_m2: 1000,
  least_width_m: 20,
  margin_m: 0,
  most_parts: 1,
};

/** Prints a table: mean of logit share − logit true share, with its simulation error. */
export async function printAreas(surveys: number, say: (text: string) => void): Promise<void> {
  const lake = await demoLake();
  say(
    `\nShares of chosen areas on the demo lake, ${surveys} surveys each: logit share − logit true share\n`,
  );
  say(
    '| transects | budget | as it looks | corrected | truly best area | true share of the chosen, and of the best |',
  );
  say('| --- | --- | --- | --- | --- | --- |');
  for (const every of EVERY)
    for (const hectares of BUDGETS_HA) {
      const found = Array.from({ length: surveys }, (_, i) =>
        curseOf(lake, every, hectares, i),
      ).filter((one) => one !== null);
      const cell = (of: (one: Curse) => number) => meanWithError(found.map(of));
      const share = (of: (one: Curse) => number) =>
        `${(found.reduce((sum, one) => sum + 100 * logistic(of(one)), 0) / found.length).toFixed(1)} %`;
      say(
        `| ${every === 1 ? 'all' : `every ${every}th`} | ${hectares} ha | ${cell((c) => c.naive - c.real)} | ${cell((c) => c.corrected - c.real)} | ${cell((c) => c.unchosen)} | ${share((c) => c.real)}, ${share((c) => c.best)} |`,
      );
    }
}

interface DemoLake {
  again: Again;
  laid: LaidLake;
  truth: Truth;
}

async function demoLake(): Promise<DemoLake> {
  const folder = await readSurveyFolder(DEMO);
  let laid: LaidLake | null = null;
  const judged = await judge(folder, undefined, (input) => {
    laid = layLake(input);
    return laid;
  });
  const done = await estimateJudged(judged, { replicates: 0 });
  const truth = await readTruth(DEMO);
  if (!done.ok || done.again === null || laid === null || truth === null)
    throw new Error('got no estimate of the demo lake, expected one');
  return { again: done.again, laid, truth };
}

/** Logits of shares. */
interface Curse {
  naive: number;
  corrected: number;
  /** of the chosen area */
  real: number;
  best: number;
  /** what the estimate of the truly best area is off by */
  unchosen: number;
}

function curseOf(
  { again, laid, truth }: DemoLake,
  every: number,
  hectares: number,
  index: number,
): Curse | null {
  const rows = simulated(again, truth, every, index);
  let members: Again['members'];
  try {
    ({ members } = chooseModel(rows, again.analysis));
  } catch (error) {
    if (error instanceof NotEstimable) return null;
    throw error;
  }
  if (laid.areas === null) throw new Error('got no lake to cut, expected one');
  const carried = carriedEstimate({ ...again, rows, members });
  const basis = treatBasis({ ...carried, bed: again.bed, cutter: laid.areas, searched: [] });
  const budget = hectares * 10_000;
  const from = choiceBasis(basis, {
    request: { ...REQUEST, budget_m2: budget },
    detections: [],
    excluded: [],
    seed: SEED,
    level: 0.95,
  });
  const { units, value, total, blocks } = from;
  const density = trueDensity(again, truth, blocks.bins);
  const trueValue = unitValues(units, blockValues(blocks, density));
  const trueTotal = density.reduce((sum, d, b) => sum + d * blocks.bins.areaM2[b], 0);
  const purse = { budget, parts: 1 };
  const chosen = chosenBy(choose(units, value, purse));
  const best = chosenBy(choose(units, trueValue, purse));
  const draws = optimismDraws({ ...from, seed: SEED }, purse, chosen, DRAWS);
  const naive = logit(chosen.value / total);
  return {
    naive,
    corrected: naive - draws.reduce((sum, d) => sum + d, 0) / draws.length,
    real: logit(heldBy(chosen, trueValue) / trueTotal),
    best: logit(best.value / trueTotal),
    unchosen: logit(heldBy(best, value) / total) - logit(best.value / trueTotal),
  };
}

function simulated({ rows }: Again, truth: Truth, every: number, index: number) {
  const kept = [...new Set(rows.segments.map((s) => s.transect))].filter((_, k) => k % every === 0);
  const segments = rows.segments
    .filter((s) => kept.includes(s.transect))
    .map((s) => ({ ...s, transect: kept.indexOf(s.transect) }));
  const survey = { ...rows, segments, clusters: [], transectCount: kept.length };
  const densities = segments.map((s) =>
    logDensity(truth, {
      substrate: s.classes.map((c) => rows.classNames[c]),
      plantCover: s.plantCover,
      depthM: s.depthM,
    }),
  );
  const found = detectionsOf(
    simulateClusters(truth, searchedSegments(survey, densities), stream(SEED, index)),
  );
  const clusters = found.map((d) => ({
    segment: d.segmentIndex,
    role: d.foundBy,
    offsetM: d.offsetM,
    count: d.count,
  }));
  return { ...survey, clusters };
}

/** Mussels per m² of each bin; where the map has no plants, over those that were recorded on the substrate. */
function trueDensity(
  { rows, bed, analysis }: Again,
  truth: Truth,
  bins: { count: number; habitat: ArrayLike<number>; depthM: ArrayLike<number> },
): Float64Array {
  const habitats = mappedHabitats(bed.habitats, analysis);
  return Float64Array.from({ length: bins.count }, (_, b) => {
    const { classes, plantCover } = habitats[bins.habitat[b]];
    const substrate = classes.map((c) => rows.classNames[c]);
    const plants = plantCover === null ? plantShares(rows, classes) : new Map([[plantCover, 1]]);
    let sum = 0;
    for (const [cover, share] of plants)
      sum +=
        share *
        Math.exp(logDensity(truth, { substrate, plantCover: cover, depthM: bins.depthM[b] }));
    const raise = Math.exp(truth.density.transect_sd ** 2 / 2);
    return sum * raise * meanClusterSize(truth, substrate);
  });
}

function chosenBy(chosen: Chosen | null): Chosen {
  if (chosen === null) throw new Error('got no area for the budget, expected one');
  return chosen;
}

const logit = (share: number): number => Math.log(share / (1 - share));
const logistic = (x: number): number => 1 / (1 + Math.exp(-x));

function meanWithError(values: readonly number[]): string {
  const n = values.length;
  const mean = values.reduce((sum, x) => sum + x, 0) / n;
  const variance = values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (n - 1);
  return `${mean < 0 ? '−' : '+'}${Math.abs(mean).toFixed(3)} ± ${Math.sqrt(variance / n).toFixed(3)}`;
}
