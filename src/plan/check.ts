/** The check of a plan: surveys simulated on its transects, each fitted again by the best model alone. */

import { expectedCv } from '../../models/further.ts';
import {
  fittedLogDensity,
  type RehearsalInput,
  type RunMany,
  runHere,
  type SurveyRows,
  summariseRehearsal,
  truthOf,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { PlanCheck } from '../../shared/planning.ts';
import type { PlannedPlace } from './draw.ts';
import type { PlanFrame, PlanGround } from './frame.ts';

/** @param surveys 2 and more */
export async function checkPlan(
  ground: PlanGround,
  frame: PlanFrame,
  places: readonly PlannedPlace[],
  surveys: number,
  {
    runMany = runHere,
    progress = () => {},
  }: { runMany?: RunMany; progress?: (share: number) => void } = {},
): Promise<PlanCheck> {
  const input = simulationOf(ground, frame, places);
  const done = await runMany({ kind: 'rehearsal', input }, surveys, progress);
  const { mussels } = frame.model;
  const summary = summariseRehearsal(done, { clusters: mussels, mussels });
  const own = summary.mussels;
  const had = surveys * (1 - summary.notEstimable);
  const { gradient, inHand } = frame.model;
  const expected = expectedCv(
    // of the best model alone, as it is what is fitted again
    { gradient, inHand, inflation: 1, fixedVariance: 0 },
    places.map(({ zone, place }) => frame.zones[zone].information[place]),
  );
  if (expected === null)
    throw new RangeError('got a plan that cannot tell the total, expected one with a CV');
  return {
    surveys,
    expected_cv: expected,
    simulated_cv: own?.spread ?? null,
    // of a standard deviation of normal values
    simulated_se: own === null ? null : own.spread / Math.sqrt(2 * had),
    not_estimable: summary.notEstimable,
  };
}

function simulationOf(
  { rows, habitats, analysis, shareAt }: PlanGround,
  { model, zones, asked, pieces }: PlanFrame,
  places: readonly PlannedPlace[],
): RehearsalInput {
  const before = asked.added ? rows.segments : [];
  const from = asked.added ? rows.transectCount : 0;
  const planned = places.flatMap(({ zone, place, roles }, i) => {
    const rope = zones[zone].ropes[place];
    const shore = shareAt(rope.start);
    return rope.segments.map((s) => ({ ...s, ...roles, shore, transect: from + i }));
  });
  const searched: SurveyRows = {
    segments: [...before, ...planned],
    clusters: [],
    transectCount: from + places.length,
    classNames: rows.classNames,
    observerNames: rows.observerNames,
  };
  return {
    rows: searched,
    analysis: asFitted(analysis, model.fit),
    truth: truthOf(searched, model.fit),
    logDensity: fittedLogDensity(searched, model.fit),
    habitats: [...habitats],
    pieces,
    seed: asked.seed,
  };
}

/** The choices that leave nothing open: the form of the best model. */
function asFitted(analysis: Analysis, { candidate, parts }: PlanFrame['model']['fit']): Analysis {
  const { depth } = candidate;
  return {
    ...analysis,
    models: 'best',
    density: {
      ...analysis.density,
      family: parts.family,
      transect_effect: parts.transectEffect,
      ...(depth === undefined
        ? {}
        : { depth: depth.form, ...(depth.form === 'curve' ? { depth_df: depth.df } : {}) }),
      shore: candidate.shorePairs === undefined ? 'none' : analysis.density.shore,
    },
    detection: {
      ...analysis.detection,
      availability: null,
      ...(candidate.shape === null ? {} : { shape: candidate.shape }),
    },
  };
}
