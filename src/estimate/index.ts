/** The estimate of a survey: models fitted to its segments, carried to the bed, told in the result's terms. */

import {
  type AlongRing,
  type Availability,
  availabilityOf,
  type Choice,
  chooseModel,
  classLimits,
  type Diagnosis,
  detectionAgainst,
  diagnose,
  expectedDetections,
  type Fit,
  hasTransectEffect,
  intervalQuantile,
  isSpread,
  meanDetection,
  nothingDetected,
  overallLimit,
  type SurveyRows,
  transectEffects,
  withModelsOutside,
} from '../../models/index.ts';
import type { Progress } from '../../shared/findings.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { ModelChecks } from '../../shared/result.ts';
import type { Bed } from '../../shared/survey.ts';
import { bedAlong } from './bed-along.ts';
import { withBootstrap } from './bootstrap.ts';
import { depthCurves } from './density-curves.ts';
import {
  isAlongShore,
  ofAllClusters,
  refuseRunaway,
  refuseVanishing,
  unlessRefused,
} from './fitted-on-bed.ts';
import { lakeWide } from './lake-wide.ts';
import { modelRow } from './model-rows.ts';
import {
  asNotice,
  asWarning,
  availabilityNotices,
  lakeNotices,
  limitNotices,
  nothingNotice,
  oneTransectNotices,
  secondMaximumNotices,
} from './notices.ts';
import { recordedSubstrates } from './recorded-substrates.ts';
import type { Estimated, EstimateInput, EstimateOptions, EstimateOutput } from './records.ts';
import { describeEstimate } from './result.ts';
import { surveyRows } from './rows.ts';
import type { UpperLimits } from './strata.ts';
import { whatIf } from './what-if.ts';

export { areaAboveRow, jointDensityOf } from './area-above.ts';
export { type CarriedEstimate, carriedEstimate } from './carried.ts';
export { fittedOnBed } from './fitted-on-bed.ts';
export type { Again, EstimateInput, EstimateOptions, EstimateOutput } from './records.ts';
export { type KnownTruth, type Rehearsal, rehearse } from './rehearsal.ts';
export { mappedHabitats, surveyedDomain, surveyRows } from './rows.ts';

/** The whole step: the estimate, and its bootstrap where one is asked for. */
export async function estimateSurveyed(
  input: EstimateInput,
  options: EstimateOptions = {},
): Promise<EstimateOutput> {
  const output = estimateLake(input, options.progress, options.compareOutside);
  return output.ok ? withBootstrap(output, input.analysis, options) : output;
}

/**
 * The estimate without a bootstrap.
 * @param compareOutside models that the choices leave out are fitted too, to stand beside the one used
 */
export function estimateLake(
  input: EstimateInput,
  progress: Progress = () => {},
  compareOutside = false,
): EstimateOutput {
  const { survey, segments, analysis } = input;
  const rows = surveyRows(survey, segments, analysis, input.shore);
  return unlessRefused(input, () => {
    const told = (done: number, of: number): void => progress('fit', done / of);
    const choice =
      rows.clusters.length === 0
        ? nothingDetected(rows)
        : withOutside(chooseModel(rows, analysis, told));
    return estimateOf(input, rows, choice, progress);
  });

  function withOutside(choice: Choice): Choice {
    if (!compareOutside) return choice;
    return { ...choice, models: withModelsOutside(rows, analysis, choice) };
  }
}

/** From the chosen fit to the result. Without a detection there is nothing to check and no curve to draw. */
function estimateOf(
  input: EstimateInput,
  rows: SurveyRows,
  choice: Choice,
  progress: Progress,
): Estimated {
  const { analysis, shore } = input;
  const { fit } = choice;
  const isAlong = isAlongShore(choice);
  const along = (own: Bed): Bed => (isAlong && shore !== null ? bedAlong(own, shore) : own);
  const bed = input.bed && along(input.bed);
  const treated = input.treated.map((t) => ({ ...t, bed: t.bed && along(t.bed) }));
  const availableIn = (own: Fit): Availability | null =>
    availabilityOf(analysis.detection, rows, own);
  const availability = availableIn(fit);
  const all = ofAllClusters(choice, availableIn);
  const { members } = all;
  const nothing = rows.clusters.length === 0;
  const meanP = nothing ? null : meanDetection(rows, fit).value;
  if (meanP !== null) refuseVanishing(meanP);
  const limits = upperLimits(rows, fit, analysis.interval, availability?.share ?? 1);
  progress('lake', 0);
  const quantile = intervalQuantile(
    analysis.interval,
    hasTransectEffect(members),
    rows.transectCount,
  );
  const lake = bed && lakeWide(rows, members, quantile, limits, analysis, bed, { treated, shore });
  const whole = lake?.abundance ?? null;
  if (whole !== null && meanP !== null)
    refuseRunaway(
      whole.area_m2,
      whole.clusters.estimate,
      whole.mussels?.estimate ?? 0,
      rows,
      meanP,
    );
  progress('checks', 0);
  const gradient = lake?.gradientOfLogTotal ?? null;
  const diagnosis = nothing ? null : diagnosed(input, rows, fit, gradient);
  // the bed where there is a number of mussels on it
  const peopled = lake?.abundance && !nothing ? bed : null;
  const records =
    peopled && recordedSubstrates(rows, members, input.segments, analysis, peopled, quantile);
  const estimate = describeEstimate(
    input,
    rows,
    fit,
    choice.models.map(modelRow),
    limits.classes,
    lake,
    diagnosis,
    records,
  );
  const notices: ModelNotice[] = [
    ...choice.notices,
    ...fit.notices,
    ...availabilityNotices(availability),
    ...(limits.overall === null
      ? limitNotices(limits.classes)
      : [nothingNotice(estimate.data.area_searched_m2, limits.overall)]),
    ...(lake ? lakeNotices(lake) : []),
    ...secondMaximumNotices(rows, fit, analysis, peopled),
    ...oneTransectNotices(estimate),
  ];
  const findings = [...input.findings, ...notices.map(asNotice)];
  return {
    ok: true,
    estimate: { ...estimate, warnings: findings.map(asWarning) },
    models: choice.models,
    surface: lake?.surface ?? null,
    curves: nothing ? [] : depthCurves(rows, members, quantile, analysis, input.domain, input.bed),
    expectedDetections: nothing ? null : expectedDetections(rows, fit),
    detectionAgainst: nothing ? [] : detectionAgainst(rows, fit, analysis.interval),
    checks: diagnosis && checksOf(diagnosis, fit),
    whatIf: peopled && whatIf(rows, all, analysis, { bed: peopled, mapped: input.bed ?? peopled }),
    again: peopled && { rows, analysis, fits: all.fits, members, bed: peopled },
    findings,
  };
}

/** Of the density of all clusters, where only a share of them can be detected. */
function upperLimits(rows: SurveyRows, fit: Fit, level: number, share: number): UpperLimits {
  const ofAll = (perM2: number | null): number | null => (perM2 === null ? null : perM2 / share);
  return {
    classes: classLimits(rows, fit, level).map((l) => ({ ...l, upper: ofAll(l.upper) })),
    overall: rows.clusters.length === 0 ? ofAll(overallLimit(rows, fit, level)) : null,
  };
}

function diagnosed(
  input: EstimateInput,
  rows: SurveyRows,
  fit: Fit,
  gradientOfLogTotal: Float64Array | null,
): Diagnosis {
  const places = { positions: middles(input), rings: ringsOf(input) };
  return diagnose(rows, fit, places, gradientOfLogTotal, input.analysis.seed);
}

function checksOf({ checks, residuals, expected, leftOut }: Diagnosis, fit: Fit): ModelChecks {
  const influence = leftOut.map((l) => l.influence);
  return { checks, residuals, expected, influence, effects: transectEffects(fit) };
}

/** Middle of each transect in the plane, in the order of the survey. */
function middles({ survey, placed }: EstimateInput): [number, number][] {
  const byName = new Map(placed.map((p) => [p.transect.transect, p]));
  return survey.transects.map((t) => {
    const p = byName.get(t.transect);
    if (!p) throw new RangeError(`transect ${t.transect} was not placed`);
    return [(p.start[0] + p.end[0]) / 2, (p.start[1] + p.end[1]) / 2];
  });
}

/** Transects along each ring of the shore, by their places in the survey. */
function ringsOf({ survey, shore }: EstimateInput): AlongRing[] | null {
  if (shore === null) return null;
  const placeOf = new Map(survey.transects.map((t, i) => [t.transect, i]));
  return shore.rings.map(({ lengthM, transects, greatestGapM }) => ({
    transects: transects.flatMap((t) => placeOf.get(t.transect) ?? []),
    goesRound: isSpread(greatestGapM / lengthM),
  }));
}
