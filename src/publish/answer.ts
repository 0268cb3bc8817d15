/**
 * The answer in words: how many mussels, how sure, where the number holds. The terminal, the report and the app say it
 * word for word the same.
 */

import type { Quantity } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Lake, Survey } from '../../shared/survey.ts';
import {
  formatArea,
  formatCount,
  formatDepthBand,
  formatPercent,
  formatToStep,
  roundingStep,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';

export type Answerable = Pick<SurveyResult, 'estimate' | 'survey' | 'analysis' | 'lake' | 'domain'>;

/**
 * One or two sentences that could be read aloud: mussels, interval, the area and depths they hold for, the depths and
 * the area that divers searched. Says so when nothing was found, when nobody followed the first diver, and when there
 * is no lake-wide number.
 */
export function answerSentence(result: Answerable, units: UnitSystem = 'metric'): string {
  const { abundance, data } = result.estimate;
  if (data.detections === 0) return nothingFound(result, units);
  if (abundance === null) return noLakeWideNumber(result, units);
  const detectable = result.estimate.detection?.fixed ? 'detectable ' : '';
  const quantity = abundance.mussels ?? abundance.clusters;
  const noun = abundance.mussels === null ? 'clusters of mussels' : 'mussels';
  const first =
    `About ${words(quantity, `${detectable}${noun}`, result.analysis.interval)} on the ` +
    `${formatArea(abundance.area_m2, units)} of lake bed that the survey speaks for, ` +
    `${domainBand(result, units)} deep. ${searched(result, units)}`;
  return detectable === ''
    ? first
    : `${first} Nobody searched after the first diver, so what he missed is not in this number.`;
}

/** Least and greatest depth written down on the sheets; null when none was. */
export function sampledBand(survey: Survey): { fromM: number; toM: number } | null {
  let fromM = Number.POSITIVE_INFINITY;
  let toM = Number.NEGATIVE_INFINITY;
  for (const { depthM } of survey.habitat) {
    fromM = Math.min(fromM, depthM);
    toM = Math.max(toM, depthM);
  }
  return fromM <= toM ? { fromM, toM } : null;
}

/** Which of the three maps a lake-wide number needs are not there, by file name. */
export function missingMaps(lake: Lake): string[] {
  const missing: string[] = [];
  if (lake.outline === null) missing.push('outline.geojson');
  if (lake.substrate === null) missing.push('substrate.geojson');
  if (lake.depth === null) missing.push('depth.geojson or depth.tif');
  return missing;
}

function nothingFound(result: Answerable, units: UnitSystem): string {
  const { abundance } = result.estimate;
  const first = `No mussels were found on the ${searchedArea(result, units)} searched${atDepths(result, units)}.`;
  const upper = abundance?.clusters.upper ?? null;
  if (abundance === null || upper === null)
    return `${first} Finding none does not show that there are none; without a lake map there is no limit for the lake.`;
  const limit = formatToStep(upper, roundingStep(abundance.clusters));
  return (
    `${first} Finding none does not show that there are none: up to ${limit} clusters could have been missed on the ` +
    `${formatArea(abundance.area_m2, units)} of lake bed that the survey speaks for, ${domainBand(result, units)} deep ` +
    `(${formatPercent(result.analysis.interval)} upper limit if divers see every cluster in their path; more if they miss some).`
  );
}

function noLakeWideNumber(result: Answerable, units: UnitSystem): string {
  const { estimate, analysis, lake } = result;
  const missing = missingMaps(lake);
  const why =
    missing.length > 0
      ? `the folder holds ${listed(
          missing.map((name) => `no ${name}`),
          'and',
        )}`
      : 'no mapped bed lies within the habitats and depths that were searched';
  const density = estimate.design_based.clusters_per_m2;
  const detectable = estimate.detection?.fixed ? 'detectable ' : '';
  const along =
    density === null
      ? ''
      : ` Along the transects there were about ${words(density, `${detectable}clusters per m²`, analysis.interval)}${
          detectable === '' ? ', corrected for those that divers miss' : ''
        }.`;
  return `There is no lake-wide number: ${why}.${along} ${searched(result, units)}`;
}

/** `184,000 mussels (95 % interval 121,000 to 279,000)` */
function words(q: Quantity, noun: string, interval: number): string {
  const step = roundingStep(q);
  const estimate = `${formatToStep(q.estimate, step)} ${noun}`;
  return q.lower === null || q.upper === null
    ? `${estimate} (no interval could be given)`
    : `${estimate} (${formatPercent(interval)} interval ${formatToStep(q.lower, step)} to ${formatToStep(q.upper, step)})`;
}

function searched(result: Answerable, units: UnitSystem): string {
  const counted = formatCount(result.estimate.data.mussels_counted);
  return `Divers counted ${counted} on the ${searchedArea(result, units)} that they searched${atDepths(result, units)}.`;
}

function searchedArea(result: Answerable, units: UnitSystem): string {
  return formatArea(result.estimate.data.area_searched_m2, units);
}

function atDepths(result: Answerable, units: UnitSystem): string {
  const band = sampledBand(result.survey);
  return band === null ? '' : `, at depths of ${formatDepthBand(band.fromM, band.toM, units)}`;
}

function domainBand({ domain }: Answerable, units: UnitSystem): string {
  return formatDepthBand(domain.depthFromM, domain.depthToM, units);
}
