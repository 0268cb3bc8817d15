/**
 * The fit of a survey without a single detection (METHOD.md: Nothing detected): the simplest family with density 0 on every surveyed class and
 * p = 1, whatever was asked. It has no parameter, so that limits, totals and strata are computed as for any other fit.
 */

import type { Design } from '../../shared/survey.ts';
import { DESIGNS, type SurveyRows } from '../data.ts';
import { surveyedClasses } from '../density/design.ts';
import { SIMPLEST_FAMILY } from '../density/families.ts';
import { compileLikelihood, evaluateAt } from '../likelihood.ts';
import type { DiverGroup, ModelParts } from '../parts.ts';
import { USUAL_NODES } from '../transect-effect.ts';
import type { Choice } from './choice.ts';
import { aiccOf, at, type Candidate, type Fit } from './fitted-model.ts';

/** @throws RangeError when there are detections */
export function nothingDetected(rows: SurveyRows): Choice {
  const detections = rows.clusters.length;
  if (detections > 0) throw new RangeError(`got ${detections} detections, expected none`);
  const candidate: Candidate = { family: SIMPLEST_FAMILY, transectEffect: false, shape: null };
  const likelihood = compileLikelihood(rows, emptyParts(rows));
  const point = new Float64Array(0);
  const { value } = evaluateAt(likelihood, point);
  const fit: Fit = {
    candidate,
    ...at(likelihood, point),
    covariance: new Float64Array(0),
    logLikelihood: value,
    parameters: 0,
    aicc: aiccOf(value, 0, rows.segments.length),
    gradientMax: 0,
    converged: true,
    boundaries: [{ parameter: 'lambda', limit: 0 }],
    notices: [],
  };
  const { logLikelihood, parameters, aicc, boundaries } = fit;
  return {
    fit,
    fits: [fit],
    members: [{ fit, weight: 1 }],
    models: [
      {
        ...candidate,
        depth: null,
        depthDf: null,
        fit: { logLikelihood, parameters, aicc, criterion: aicc },
        boundaries,
        why: null,
        weight: 1,
        chosen: true,
      },
    ],
    notices: [],
  };
}

function emptyParts(rows: SurveyRows): ModelParts {
  const designs = DESIGNS.filter((design) => rows.segments.some((s) => s.design === design));
  return {
    family: SIMPLEST_FAMILY,
    transectEffect: false,
    nodes: USUAL_NODES,
    density: {
      terms: [],
      separated: { substrate: new Set(surveyedClasses(rows)), plantCover: new Set() },
      reference: null,
      curve: null,
    },
    plantLevel: null,
    divers: designs.map((design) => everybodyCertain(rows, design)),
    detection: [],
    shape: designs.includes('distance') ? 'flat' : null,
    fixedB: null,
    independence: 'full',
    distanceClasses: null,
    offsetSlope: false,
    sizeFamily: 'single',
    size: [],
    sizeInDetection: false,
  };
}

function everybodyCertain(rows: SurveyRows, design: Design): DiverGroup {
  const observers = new Set<number>();
  for (const s of rows.segments) {
    if (s.design !== design) continue;
    observers.add(s.primary);
    if (s.secondary !== null) observers.add(s.secondary);
  }
  return { design, observers: [...observers], certain: true, term: `intercept:${design}` };
}
