/**
 * What plans promise and what they keep: the expected CV against surveys simulated on the same transects and fitted again, and
 * the coverage of the interval where dives end as soon as a CV is reached, beside a number of dives that was fixed before.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bedTotal, hasTransectEffect } from '../../../models/averaged.ts';
import type { SurveyRows } from '../../../models/data.ts';
import { expectedCv } from '../../../models/design/curve.ts';
import { transectInformation } from '../../../models/design/information.ts';
import { planningModel, totalGradient } from '../../../models/design/planning-model.ts';
import { NotEstimable } from '../../../models/errors.ts';
import { fitModel } from '../../../models/fit/fit-model.ts';
import { type Fit, knownValues } from '../../../models/fit/fitted-model.ts';
import { refit } from '../../../models/fit/refit.ts';
import { intervalQuantile, logNormalQuantity } from '../../../models/interval.ts';
import { stream } from '../../../models/numbers/random.ts';
import { fittedLogDensity, truthOf } from '../../../models/rehearse.ts';
import {
  detectionsOf,
  searchedSegments,
  simulateClusters,
  type Truth,
} from '../../../models/simulate.ts';
import { mappedHabitats } from '../../../src/estimate/index.ts';
import { estimateSurvey } from '../../../src/pipeline.ts';
import { prepare, SCENARIOS } from './scenarios.ts';

const ROOT = join(import.meta.dirname, import.meta.url.includes('/dist/') ? '..' : '../../..');
const FOLDERS = [
  'demo-lake',
  'tests/reference-lakes/belt-nb1',
  'tests/reference-lakes/both-effect-size',
];
const percent = (x: number): string => `${(100 * x).toFixed(1)} %`;

export async function printPlans(surveys: number, say: (text: string) => void): Promise<void> {
  say('| survey | expected CV | simulated CV | surveys without a maximum |');
  say('| --- | --- | --- | --- |');
  for (const folder of FOLDERS) {
    const { expected, simulated, lost } = await expectedAgainstSimulated(folder, surveys);
    const se = simulated / Math.sqrt(2 * (surveys - lost));
    say(`| ${folder} | ${percent(expected)} | ${percent(simulated)} ± ${percent(se)} | ${lost} |`);
  }
  say('');
  printStopping(surveys, say);
}

/** The survey's own transects, its best model: nothing of the choice is in either number. */
async function expectedAgainstSimulated(folder: string, surveys: number) {
  const path = join(ROOT, folder);
  const files = new Map(
    readdirSync(path, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => [name, new Uint8Array(readFileSync(join(path, name)))]),
  );
  const done = await estimateSurvey({ name: folder, files });
  if (!done.ok || done.again === null) throw new Error(`${folder} has no estimate`);
  const { rows, analysis, members, bed, fits } = done.again;
  const habitats = mappedHabitats(bed.habitats, analysis);
  const model = planningModel({ rows, analysis, members, habitats, pieces: bed.pieces });
  const tell = transectInformation(model, model.fit, 1);
  const transects = Array.from({ length: rows.transectCount }, (_, t) => {
    const own = rows.segments.filter((s) => s.transect === t);
    const { primary, secondary } = own[0];
    const planned = own.map(({ transect: _t, primary: _p, secondary: _s, ...s }) => s);
    return tell(planned, [{ primary, secondary }]);
  });
  const alone = { ...model, inHand: null, inflation: 1, fixedVariance: 0 };
  const truth = truthOf(rows, model.fit);
  const densities = fittedLogDensity(rows, model.fit);
  const logs: number[] = [];
  for (let i = 0; i < surveys; i++) {
    const again = refit(simulated(rows, truth, densities, 9, i), fits[0]);
    if (again !== null)
      logs.push(Math.log(totalGradient(rows, again, habitats, bed.pieces).mussels));
  }
  return {
    expected: expectedCv(alone, transects) ?? Number.NaN,
    simulated: sd(logs),
    lost: surveys - logs.length,
  };
}

function simulated(
  rows: SurveyRows,
  truth: Truth,
  logDensity: number[] | null,
  seed: number,
  index: number,
): SurveyRows {
  const drawn = simulateClusters(truth, searchedSegments(rows, logDensity), stream(seed, index));
  const clusters = detectionsOf(drawn).map((d) => ({
    segment: d.segmentIndex,
    role: d.foundBy,
    offsetM: d.offsetM,
    count: d.count,
  }));
  return { ...rows, clusters };
}

function sd(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
}

/** Dives end at the first CV below the goal, from the eighth on, the sixtieth at the latest. */
const FEWEST = 8;
const MOST = 60;
const GOALS = [0.2, 0.15, 0.12];

function printStopping(surveys: number, say: (text: string) => void): void {
  const scenario = SCENARIOS.find((s) => s.name === 'belt, 60 transects');
  if (scenario === undefined) throw new Error('got no scenario of 60 transects');
  const { input, totals } = prepare(scenario, 1);
  const analysis = structuredClone(input.analysis);
  analysis.density.depth = 'quadratic';
  analysis.models = 'best';
  const candidate = {
    family: input.truth.density.family,
    transectEffect: input.truth.density.transect_sd > 0,
    shape: null,
  };
  interface End {
    dives: number;
    held: boolean;
    error: number;
  }
  const stopped: End[][] = GOALS.map(() => []);
  const fixed = new Map<number, End[]>();
  for (let i = 0; i < surveys; i++) {
    const whole = simulated(input.rows, input.truth, input.logDensity, 31, i);
    let warm: ReturnType<typeof knownValues> = [];
    const open = new Set(GOALS.keys());
    for (let k = FEWEST; k <= MOST; k++) {
      const rows = firstTransects(whole, k);
      let fit: Fit | null = null;
      try {
        const end = fitModel(rows, analysis, candidate, warm);
        fit = end.converged ? end : null;
      } catch (error) {
        if (!(error instanceof NotEstimable)) throw error;
      }
      if (fit === null) continue;
      warm = knownValues(fit.likelihood, fit.estimates);
      const members = [{ fit, weight: 1 }];
      const total = bedTotal(rows, members, input.habitats, input.pieces);
      const quantile = intervalQuantile(0.95, hasTransectEffect(members), k);
      const q = logNormalQuantity(total.mussels, total.musselsSe, quantile);
      const end: End = {
        dives: k,
        held: (q.lower ?? 0) <= totals.mussels && totals.mussels <= (q.upper ?? Infinity),
        error: Math.log(total.mussels / totals.mussels),
      };
      if (k % 5 === 0) fixed.set(k, [...(fixed.get(k) ?? []), end]);
      for (const g of open)
        if (total.musselsSe / total.mussels <= GOALS[g] || k === MOST) {
          stopped[g].push(end);
          open.delete(g);
        }
      if (open.size === 0 && k % 5 === 0 && k >= 30) break;
    }
  }
  const line = (name: string, ends: readonly End[]): void => {
    const held = ends.filter((e) => e.held).length / ends.length;
    const dives = ends.reduce((s, e) => s + e.dives, 0) / ends.length;
    const bias = ends.reduce((s, e) => s + e.error, 0) / ends.length;
    const se = Math.sqrt((held * (1 - held)) / ends.length);
    say(
      `| ${name} | ${dives.toFixed(1)} | ${percent(held)} ± ${percent(se)} | ${percent(bias)} | ${percent(sd(ends.map((e) => e.error)))} |`,
    );
  };
  say('| dives end | dives, mean | coverage of 95 % | mean log error | its sd |');
  say('| --- | --- | --- | --- | --- |');
  for (const [g, goal] of GOALS.entries()) line(`at the first CV of ${percent(goal)}`, stopped[g]);
  for (const [k, ends] of [...fixed].sort(([a], [b]) => a - b))
    if (ends.length === surveys) line(`after ${k}`, ends);
}

function firstTransects(rows: SurveyRows, count: number): SurveyRows {
  const kept = rows.segments.filter((s) => s.transect < count).length;
  return {
    ...rows,
    // segments are in the order of the transects
    segments: rows.segments.slice(0, kept),
    clusters: rows.clusters.filter((c) => c.segment < kept),
    transectCount: count,
  };
}
