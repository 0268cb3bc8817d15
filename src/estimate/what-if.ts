/** What the total would be under another model or another map: one assumption changed, the others as they are. */

import {
  bedTotal,
  type Choice,
  condense,
  haveSameNames,
  intervalQuantile,
  logNormalQuantity,
  namesOf,
  predictor,
  type SurveyRows,
  weighModels,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { OtherModel, TriedModel, WhatIf } from '../../shared/result.ts';
import type { Bed } from '../../shared/survey.ts';
import { shiftedBorders } from './borders.ts';
import { mappedHabitats } from './rows.ts';

/** Models whose AICc is further above are commonly read as having no support (Burnham & Anderson 2002, ch. 2). */
export const WITHIN_AICC = 10;

/**
 * Of a survey with detections and a bed inside of the surveyed habitat.
 * @param beds for totals, and with the habitats as mapped: a place along the shore is no border of a habitat
 */
export function whatIf(
  rows: SurveyRows,
  choice: Choice,
  analysis: Analysis,
  { bed, mapped }: { bed: Bed; mapped: Bed },
): WhatIf {
  const p = predictor(rows, choice.fits[0]);
  const densities = mappedHabitats(mapped.habitats, analysis).map((h) => p.habitat(h));
  return {
    models: otherModels(rows, choice, analysis, bed),
    borders: shiftedBorders(mapped, densities, p),
  };
}

/** Each model within reach that takes no part in the average, lowest AICc first, with its own total and interval. */
function otherModels(
  rows: SurveyRows,
  { fit, fits, members, models }: Choice,
  analysis: Analysis,
  bed: Bed,
): OtherModel[] {
  const { aicc } = fit;
  if (aicc === null) return [];
  const own = new Set(distinct(models));
  const within = fits.flatMap((other) => {
    const delta = other.aicc === null ? null : other.aicc - aicc;
    const isOwn = models.some((m, i) => own.has(i) && haveSameNames(m, namesOf(other.candidate)));
    const isPart = members.some((m) => m.fit === other);
    return !isPart && isOwn && delta !== null && delta <= WITHIN_AICC ? [{ other, delta }] : [];
  });
  if (within.length === 0) return [];
  const habitats = mappedHabitats(bed.habitats, analysis);
  const pieces = condense(bed.pieces);
  return within
    .sort((a, b) => a.delta - b.delta)
    .map(({ other, delta }) => {
      const total = bedTotal(rows, [{ fit: other, weight: 1 }], habitats, pieces);
      const quantile = intervalQuantile(
        analysis.interval,
        other.parts.transectEffect,
        rows.transectCount,
      );
      return {
        ...namesOf(other.candidate),
        delta,
        mussels: logNormalQuantity(total.mussels, total.musselsSe, quantile),
      };
    });
}

/** Places of the models that are neither the chosen one nor another one on its boundary. */
function distinct(models: readonly TriedModel[]): number[] {
  const weighed = weighModels(models);
  const chosen = models.findIndex((m) => m.chosen);
  const same = weighed[chosen]?.sameAs ?? chosen;
  return models.flatMap((_, i) =>
    i === chosen || i === same || weighed[i]?.sameAs !== null ? [] : [i],
  );
}
