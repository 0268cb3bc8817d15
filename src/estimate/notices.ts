/** What the models met, as findings and as the result's warnings. */

import {
  type Availability,
  averageSums,
  averageTotal,
  type ClassLimit,
  carry,
  type Fit,
  type PlantedAvailability,
  type SurveyRows,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { ModelNotice, NotEstimableReason } from '../../shared/model-notices.ts';
import {
  choiceOf,
  notEstimableSentence,
  noticeSentence,
} from '../../shared/sentences/model-notices.ts';
import type { Bed } from '../../shared/survey.ts';
import type { LakeWide } from './lake-wide.ts';
import { mappedHabitats } from './rows.ts';

export function limitNotices(limits: ClassLimit[]): ModelNotice[] {
  return limits.map(({ of, upper }) => ({
    code: 'nothing-found-in-class',
    of,
    upperPerM2: upper,
  }));
}

/** Detection probabilities for which the notice gives the limit beside that for p = 1. */
const IF_DETECTED = [0.9, 0.7, 0.5];

/** @param upperPerM2 clusters per m² that the survey allows when p = 1 */
export function nothingNotice(searchedM2: number, upperPerM2: number): ModelNotice {
  const ifDetected = IF_DETECTED.map((p) => ({ p, upperPerM2: upperPerM2 / p }));
  return { code: 'nothing-found', searchedM2, upperPerM2, ifDetected };
}

export function lakeNotices(lake: LakeWide): ModelNotice[] {
  const notices: ModelNotice[] = [];
  if (lake.plantsUnmappedM2 > 0)
    notices.push({ code: 'plant-cover-not-mapped', areaM2: lake.plantsUnmappedM2 });
  if (lake.abundance === null) notices.push({ code: 'nothing-inside' });
  return notices;
}

/** That all numbers are divided by a share, and where it comes from. */
export function availabilityNotices(availability: Availability | null): ModelNotice[] {
  if (availability === null) return [];
  const { share, se } = availability;
  if (!isPlanted(availability)) return [{ code: 'availability-given', share, se }];
  const { planted, found, transects, ratio } = availability;
  return [{ code: 'availability-planted', share, se, planted, found, transects, ratio }];
}

const isPlanted = (a: Availability): a is PlantedAvailability => 'planted' in a;

/** Share by which a total must differ before a second maximum is worth a word. */
const SAME_TOTAL = 0.05;

/** The second maximum of the best model's likelihood, where the total at it is another. */
export function secondMaximumNotices(
  rows: SurveyRows,
  fit: Fit,
  analysis: Analysis,
  bed: Bed | null,
): ModelNotice[] {
  const { second } = fit;
  if (second === undefined || bed === null) return [];
  const mapped = mappedHabitats(bed.habitats, analysis);
  const musselsOf = (one: Fit): number =>
    averageTotal(averageSums(carry(rows, [{ fit: one, weight: 1 }], mapped), bed.pieces)).mussels;
  const times = musselsOf({ ...fit, ...second }) / musselsOf(fit);
  return Math.abs(Math.log(times)) < SAME_TOTAL
    ? []
    : [{ code: 'second-maximum', below: second.below, times }];
}

export function oneTransectNotices({ design_based }: Estimate): ModelNotice[] {
  return design_based.clusters_per_m2?.se === null ? [{ code: 'one-transect' }] : [];
}

export function asNotice(n: ModelNotice): Finding {
  return noticeAt({ table: 'analysis.json', column: choiceOf(n) }, n.code, noticeSentence(n));
}

/** The finding of a survey without an estimate: what was detected does not allow one. */
export function asError(reason: NotEstimableReason): Finding {
  return errorAt({ table: 'detections.csv' }, reason.code, notEstimableSentence(reason));
}

/** The result's form of a notice; the column stands before the message. */
export function asWarning(f: Finding): Estimate['warnings'][number] {
  return {
    code: f.code,
    table: f.table,
    row: f.row,
    message: f.column === null ? f.message : `${f.column}: ${f.message}`,
  };
}
