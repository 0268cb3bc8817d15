/** The models compared, as rows of the result; how each ended is there one text. */

import type { ModelRow } from '../../shared/estimate.ts';
import type { TriedModel } from '../../shared/result.ts';
import { modelEnd } from '../../shared/sentences/model-notices.ts';

export function modelRow({ fit, boundaries, why, ...model }: TriedModel): ModelRow {
  return {
    family: model.family,
    transect_effect: model.transectEffect,
    shape: model.shape,
    log_likelihood: fit?.logLikelihood ?? null,
    parameters: fit?.parameters ?? null,
    aicc: fit?.aicc ?? null,
    depth: model.depth,
    depth_df: model.depthDf,
    weight: model.weight,
    boundary: modelEnd({ boundaries, why }),
    shore_pairs: model.shorePairs ?? 0,
    in_choice: model.outside !== true,
  };
}
