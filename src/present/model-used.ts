/** The model used: what it is, what it depends on, its coefficients and its score. */

import type { Coefficient, CoefficientPart, TermKind } from '../../shared/estimate.ts';
import { gloss, type TermId, term } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatDigits } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { FAMILIES } from './model-names.ts';
import { NONE } from './quantity.ts';

/** A row of the table of coefficients; the term as in estimate.json. */
export interface CoefficientLine {
  part: string;
  term: string;
  estimate: string;
  se: string;
}

const PARTS: Record<CoefficientPart, TermId> = {
  density: 'density',
  detection: 'detectionProbability',
  size: 'clusterSize',
  dispersion: 'countDistribution',
  transect: 'transectEffect',
  shape: 'detectionFunction',
};

export function readCoefficients({ estimate }: Pick<SurveyResult, 'estimate'>): CoefficientLine[] {
  return estimate.coefficients.map((c) => ({
    part: term(PARTS[c.part]),
    term: c.term,
    estimate: signed(c.estimate, 3),
    se: c.se === null ? NONE : c.se.toFixed(3),
  }));
}

/** What a term is about; null for those that are about nothing but the model's own shape. */
const ABOUT: Record<TermKind, TermId | null> = {
  intercept: null,
  observer: 'observer',
  substrate: 'substrate',
  plant_cover: 'plantCover',
  depth: 'depth',
  shore: 'placeAlongShore',
  area: null,
  visibility: 'visibility',
  cluster_size: 'clusterSize',
  perpendicular_distance: 'perpendicularDistance',
  phi: null,
  theta: null,
  k: null,
  tau: null,
  sigma: null,
  b: null,
};

/** `Counts on a segment follow …; density depends on substrate and depth, detection on observer.` */
export function modelSentence({ estimate }: Pick<SurveyResult, 'estimate'>): string {
  const { data, model, coefficients } = estimate;
  if (data.detections === 0) return 'Nothing was detected, so no model was fitted.';
  const id = FAMILIES[model.family];
  const meaning = gloss(id);
  return `The detected clusters of a segment have the ${term('countDistribution')} ${term(id)}${meaning === null ? '' : `, ${meaning}`}${model.transect_effect ? `, with a ${term('transectEffect')}` : ''}. Density ${dependence(coefficients, 'density')}; the ${term('detectionProbability')} ${dependence(coefficients, 'detection')}.`;
}

/** What a part of the model depends on, each once: `substrate and depth`; null where it is the same everywhere. */
export function dependsOn(
  coefficients: readonly Coefficient[],
  part: CoefficientPart,
): string | null {
  const about = coefficients
    .filter((c) => c.part === part)
    .flatMap((c) => ABOUT[c.kind] ?? [])
    .map(term);
  return about.length === 0 ? null : listed([...new Set(about)], 'and');
}

function dependence(coefficients: readonly Coefficient[], part: CoefficientPart): string {
  const about = dependsOn(coefficients, part);
  return about === null ? 'is the same everywhere' : `depends on ${about}`;
}

/** Null when it could not be computed. */
export function logScoreSentence({ estimate }: Pick<SurveyResult, 'estimate'>): string | null {
  const score = estimate.checks.log_score;
  if (score === null) return null;
  return `Log score ${formatDigits(score, 5)}: the log-likelihood of each transect under the model fitted without it, summed. It means something only beside that of another model of the same survey: the higher predicts better.`;
}

/** With a true minus. */
export function signed(x: number, decimals: number): string {
  return x.toFixed(decimals).replace('-', '−');
}
