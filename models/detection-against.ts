/**
 * Detection probability of single observers along one covariate of the detection, the others held as in the observers'
 * own probabilities (METHOD.md: What is reported of detection).
 */

import { extent } from '../shared/extent.ts';
import type { DetectionAgainst, DetectionCovariate } from '../shared/result.ts';
import type { SurveyRows } from './data.ts';
import { logitForm, meanCovariates } from './detection/logit.ts';
import type { Fit } from './fit/fitted-model.ts';
import { quadraticForm } from './numbers/solve.ts';
import { logistic, normalQuantile } from './numbers/special.ts';
import { isFree } from './parts.ts';

/** A curve has so many steps, fewer where its covariate has fewer values. */
const STEPS = 40;

/** One parameter of the detection and the values at which its covariate is looked at. */
interface Along {
  covariate: DetectionCovariate;
  parameter: number;
  /** of the covariate, and what it is in the linear predictor */
  at: number[];
  entry(value: number): number;
}

/**
 * One record for every covariate in the detection, over the values met in the survey; none where no observer's
 * probability is estimated or the detection has no covariate.
 * @param level of the pointwise intervals, symmetric on the logit scale
 */
export function detectionAgainst(rows: SurveyRows, fit: Fit, level: number): DetectionAgainst[] {
  const q = normalQuantile((1 + level) / 2);
  const { parts, estimates, covariance, likelihood } = fit;
  const means = likelihood.layout.detection < 0 ? [] : meanCovariates(rows, parts);
  return alongs(rows, fit).map(({ covariate, parameter, at, entry }) => ({
    covariate,
    at,
    curves: parts.divers.flatMap((group, g) => {
      if (!isFree(group)) return [];
      const form = logitForm(rows, likelihood.layout, parts, g);
      const limits = at.map((value) => {
        form[parameter] = entry(value);
        const logit = form.reduce((sum, f, i) => sum + f * estimates[i], 0);
        const half = q * Math.sqrt(Math.max(0, quadraticForm(form, covariance)));
        return [logit, logit - half, logit + half].map(logistic);
      });
      return [
        {
          observers: group.observers.map((o) => rows.observerNames[o]),
          design: group.design,
          p: limits.map(([p]) => p),
          lower: limits.map(([, lower]) => lower),
          upper: limits.map(([, , upper]) => upper),
        },
      ];
    }),
    held: [
      ...means.flatMap((value, i) =>
        parts.detection[i].kind === covariate
          ? []
          : [{ kind: parts.detection[i].kind, class: parts.detection[i].class, value }],
      ),
      ...(likelihood.layout.logCount < 0 || covariate === 'cluster_size'
        ? []
        : [{ kind: 'cluster_size' as const, class: null, value: 1 }]),
    ],
  }));
}

function alongs(rows: SurveyRows, { parts, likelihood: { layout } }: Fit): Along[] {
  const same = (value: number): number => value;
  const found: Along[] = [];
  if (layout.detection >= 0)
    parts.detection.forEach(({ kind, value }, i) => {
      if (kind !== 'plant_cover' && kind !== 'depth' && kind !== 'visibility') return;
      const met = rows.segments.map((s) => value(s));
      const at = kind === 'plant_cover' ? distinct(met) : even(extent(met));
      found.push({ covariate: kind, parameter: layout.detection + i, at, entry: same });
    });
  if (layout.logCount >= 0) {
    const [, most] = extent(rows.clusters.map((c) => c.count));
    found.push({
      covariate: 'cluster_size',
      parameter: layout.logCount,
      at: distinct(even([0, Math.log(most)]).map((x) => Math.round(Math.exp(x)))),
      entry: Math.log,
    });
  }
  return found.filter(({ at }) => at.length > 1);
}

function even([from, to]: [number, number]): number[] {
  if (from === to) return [from];
  return Array.from({ length: STEPS + 1 }, (_, i) => from + ((to - from) * i) / STEPS);
}

function distinct(values: number[]): number[] {
  return [...new Set(values)].sort((a, b) => a - b);
}
