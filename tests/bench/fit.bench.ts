/**
 * The fit of 400 transects / 4,500 segments / 12 parameters, and the same likelihood climbed by general methods from the
 * same start: fmin's Nelder–Mead, and a quasi-Newton with numerical gradients.
 */

import { nelderMead } from 'fmin/index.js';
import type { SegmentRow, SurveyRows } from '../../models/data.ts';
import { fitModel } from '../../models/fit/fit-model.ts';
import { startValues } from '../../models/fit/start.ts';
import { compileLikelihood } from '../../models/likelihood.ts';
import { seeded } from '../../models/numbers/random.ts';
import { type Analysis, DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { quasiNewton } from './quasi-newton.ts';

const TRANSECTS = 400;
const SEGMENTS = 4500;
const CLASSES = ['silt', 'sand', 'gravel', 'rock'];

/** intercept, 3 substrates, plants, depth, depth² + 2 divers + size, k + φ = 12 parameters */
function analysis(): Analysis {
  const choices = structuredClone(DEFAULT_ANALYSIS);
  choices.density.depth = 'quadratic';
  choices.substrates = CLASSES;
  return choices;
}

function survey(transectSd: number): SurveyRows {
  const random = seeded(1);
  const segments: SegmentRow[] = [];
  const clusters: SurveyRows['clusters'] = [];
  const effects = Array.from({ length: TRANSECTS }, () => transectSd * random.normal());
  for (let i = 0; i < SEGMENTS; i++) {
    const transect = Math.floor((i * TRANSECTS) / SEGMENTS);
    const classes = [random.integer(CLASSES.length)];
    const plantCover = random.integer(5);
    const depthM = 1 + 5 * random.uniform();
    const mean =
      2.7 *
      Math.exp(
        -0.7 +
          0.4 * classes[0] -
          0.1 * plantCover +
          0.4 * depthM -
          0.06 * depthM ** 2 +
          effects[transect],
      );
    segments.push({
      transect,
      design: 'belt',
      areaM2: 2.7,
      halfWidthM: 0.5,
      classes,
      plantCover,
      depthM,
      clarityM: null,
      primary: transect % 2,
      secondary: 1 - (transect % 2),
    });
    const present = random.negativeBinomial(mean, mean / 0.8);
    for (let k = 0; k < present; k++) {
      const first = random.uniform() < 0.75;
      if (!first && random.uniform() > 0.7) continue;
      clusters.push({
        segment: i,
        role: first ? 'primary' : 'secondary',
        offsetM: null,
        count: 1 + random.negativeBinomial(1.5, 1),
      });
    }
  }
  return {
    segments,
    clusters,
    transectCount: TRANSECTS,
    classNames: CLASSES,
    observerNames: ['A', 'B'],
  };
}

export default function benches() {
  const choices = analysis();
  const rows = survey(0);
  const rough = survey(0.5);
  const candidate = { family: 'nb1' as const, transectEffect: false, shape: null };
  const best = fitModel(rows, choices, candidate);
  const likelihood = compileLikelihood(rows, best.parts);
  const start = startValues(rows, likelihood, [])[0];
  const value = (x: ArrayLike<number>): number => {
    const here = likelihood.evaluate(Float64Array.from(x));
    return here ? -here.value : 1e10;
  };
  const short = { nm: 0, qn: 0 };
  return [
    {
      name: `fit: ${SEGMENTS} segments, ${rows.clusters.length} clusters, ${best.parameters} parameters`,
      run: () => void fitModel(rows, choices, candidate),
    },
    {
      name: 'the same with a transect effect (13 parameters)',
      run: () => void fitModel(rough, choices, { ...candidate, transectEffect: true }),
      runs: 3,
    },
    {
      name: "the same likelihood by fmin's Nelder–Mead (20,000 steps at most)",
      run: () => {
        const found = nelderMead(value, [...start], { maxIterations: 20_000, sigma: 1 });
        short.nm = best.logLikelihood + found.fx;
      },
      runs: 1,
      note: () => `stops ${short.nm.toFixed(3)} below the maximum`,
    },
    {
      name: 'by a quasi-Newton (BFGS) with numerical gradients',
      run: () => {
        short.qn = best.logLikelihood + quasiNewton(value, start).value;
      },
      runs: 1,
      note: () => `stops ${short.qn.toFixed(6)} below the maximum`,
    },
  ];
}
