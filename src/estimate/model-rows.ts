/** The models compared, as rows of the result; how each ended is there one text. */

import type { ModelRow } from '../../shared/estimate.ts';
import type { TriedModel } from '../../shared/result.ts';
import { boundaryPhrase, notEstimableSentence } from '../../shared/sentences/model-notices.ts';

export function modelRow({ fit, boundaries, why, ...model }: TriedModel): ModelRow {
  const ends = [
    ...boundaries.map(boundaryPhrase),
    ...(why === null ? [] : [why.cause === 'no-maximum' ? NO_MAXIMUM : notEstimableSentence(why)]),
  ];
  return {
    family: model.family,
    transect_effect: model.transectEffect,
    shape: model.shape,
    log_likelihood: fit?.logLikelihood ?? null,
    parameters: fit?.parameters ?? null,
    aicc: fit?.aicc ?? null,
    boundary: ends.length === 0 ? null : ends.join('; '),
  };
}

/** Beside models that do have a maximum the short form says enough. */
const NO_MAXIMUM = 'did not converge';
