/**
 * The answer in words: how many mussels, how sure, where the number holds. Terminal, report and page say it word for
 * word the same; the page sets the first sentence as its headline.
 */

import type { Estimate } from '../../shared/estimate.ts';
import { capital, gloss, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Lake } from '../../shared/survey.ts';
import {
  formatArea,
  formatCount,
  formatDepthBand,
  formatLength,
  formatPercent,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { habitatBand, sampledBand } from './depths.ts';
import {
  intervalName,
  quantity,
  quantityInFull,
  quantityInShort,
  type Reading,
} from './quantity.ts';

export type Answerable = Pick<SurveyResult, 'estimate' | 'survey' | 'analysis' | 'lake' | 'domain'>;

export interface Answer {
  /** the first sentence */
  headline: string;
  /** what follows it */
  rest: string;
  /** both, with a space between */
  text: string;
  /** what surveyed habitat is and which depths were sampled; null where no depth was recorded */
  habitat: string | null;
  /** what the intervals cover; null where nothing was detected */
  intervals: string | null;
}

/**
 * Sentences that could be read aloud: mussels, interval, the area and depths they hold for, the depths and the area
 * that were searched. Says so when nothing was detected, when no secondary observer searched, and when there is no
 * lake-wide number.
 */
export function answer(result: Answerable, units: UnitSystem = 'metric'): Answer {
  const { data, abundance } = result.estimate;
  const [headline, ...rest] =
    data.detections === 0
      ? nothingDetected(result, units)
      : abundance === null
        ? noLakeWideNumber(result, units)
        : lakeWide(result, abundance, units);
  const after = rest.join(' ');
  return {
    headline,
    rest: after,
    text: `${headline} ${after}`,
    habitat: habitatNote(result, units),
    intervals: data.detections === 0 ? null : intervalNote(result.analysis.interval),
  };
}

/** The estimate in a few words, for lists: `184,000 mussels (121,000 to 279,000)`. */
export function answerInShort({ abundance, data }: Estimate): string {
  if (data.detections === 0) return 'nothing detected';
  if (abundance === null) return 'density only, no lake-wide number';
  return abundance.mussels === null
    ? quantityInShort(abundance.clusters, terms('cluster'))
    : quantityInShort(abundance.mussels, terms('mussel'));
}

export interface LakeNumber extends Reading {
  of: 'mussels' | 'clusters';
  /** what is counted */
  noun: string;
  /** `95 % confidence interval` */
  intervalName: string;
  /** limits that a log axis can show; null where no interval could be given */
  limits: { lower: number; upper: number } | null;
}

/** The lake-wide number for a drawing; null where there is none or nothing was detected. */
export function lakeNumber({
  estimate,
  analysis,
}: Pick<SurveyResult, 'estimate' | 'analysis'>): LakeNumber | null {
  const { abundance, data } = estimate;
  if (abundance === null || data.detections === 0) return null;
  const reading = quantity(abundance.mussels ?? abundance.clusters);
  const { lower, upper } = reading.value;
  return {
    ...reading,
    of: abundance.mussels === null ? 'clusters' : 'mussels',
    noun: abundance.mussels === null ? terms('cluster') : terms('mussel'),
    intervalName: intervalName(analysis.interval),
    limits:
      lower !== null && upper !== null && lower > 0 && upper > lower ? { lower, upper } : null,
  };
}

/** Which of the three maps that a lake-wide number needs are not there, by file name. */
export function missingMaps(lake: Lake): string[] {
  const missing: string[] = [];
  if (lake.outline === null) missing.push('outline.geojson');
  if (lake.substrate === null) missing.push('substrate.geojson');
  if (lake.depth === null) missing.push('depth.geojson or depth.tif');
  return missing;
}

type Sentences = [first: string, ...others: string[]];

function lakeWide(
  result: Answerable,
  abundance: NonNullable<Estimate['abundance']>,
  units: UnitSystem,
): Sentences {
  const fixed = result.estimate.detection?.fixed != null;
  const noun = abundance.mussels === null ? `${terms('cluster')} of mussels` : terms('mussel');
  const number = quantityInFull(
    abundance.mussels ?? abundance.clusters,
    fixed ? `detectable ${noun}` : noun,
    result.analysis.interval,
  );
  return [
    `About ${number} on ${habitatArea(abundance.area_m2, result, units)}.`,
    ...farAway(result, units),
    counted(result, units),
    ...(result.estimate.data.transects === 1
      ? [
          `It all rests on one ${term('transect')}: how much ${terms('transect')} differ is unknown and not in the interval, which is too narrow for the lake.`,
        ]
      : []),
    ...(fixed
      ? [
          `Where no ${term('secondaryObserver')} searched, what the ${term('primaryObserver')} missed is not in this number.`,
        ]
      : []),
  ];
}

/** A smaller share of the surveyed habitat is not worth a sentence. */
const LEAST_FAR_SHARE = 0.01;

/** How much of the number rests on no transect nearby. */
function farAway(
  { estimate: { far_from_transects: far } }: Answerable,
  units: UnitSystem,
): string[] {
  if (far === null || far.area_share < LEAST_FAR_SHARE) return [];
  const whole = (share: number): string => `${Math.round(100 * share)} %`;
  const number =
    far.mussels_share === null ? '' : `, with ${whole(far.mussels_share)} of the number,`;
  return [
    `${whole(far.area_share)} of this ${term('surveyedHabitat')}${number} lies farther from any ${term('transect')} than neighbouring ${terms('transect')} usually lie apart (${formatLength(far.spacing_m, 2, units)}).`,
  ];
}

function nothingDetected(result: Answerable, units: UnitSystem): Sentences {
  const { abundance } = result.estimate;
  const first = `No mussels were detected on the ${searched(result, units)}.`;
  const upper = abundance?.clusters.upper ?? null;
  if (abundance === null || upper === null)
    return [
      first,
      'That does not show that there are none; without a map of the lake there is no limit for it.',
    ];
  return [
    first,
    `That does not show that there are none: ${quantity(abundance.clusters).interval} clusters could have been ` +
      `missed on ${habitatArea(abundance.area_m2, result, units)} (${formatPercent(result.analysis.interval)} ` +
      `${term('upperLimit')} if every cluster in the ${term('searchedArea')} was detected; more if some were missed).`,
  ];
}

function noLakeWideNumber(result: Answerable, units: UnitSystem): Sentences {
  const { estimate, analysis, lake } = result;
  const missing = missingMaps(lake).map((name) => `no ${name}`);
  const why =
    missing.length > 0
      ? `the folder holds ${listed(missing, 'and')}`
      : 'no mapped bed lies within the habitats and depths that were searched';
  const density = estimate.design_based.clusters_per_m2;
  const fixed = estimate.detection?.fixed != null;
  const along =
    density === null
      ? []
      : [
          `Along the transects there were about ${quantityInFull(
            density,
            `${fixed ? 'detectable ' : ''}${terms('cluster')} per m²`,
            analysis.interval,
          )}${fixed ? '' : ', corrected for those that were missed'}.`,
        ];
  return [`There is no lake-wide number: ${why}.`, ...along, counted(result, units)];
}

/** `14.8 ha of surveyed habitat, 0.5 to 6.1 m deep` */
function habitatArea(areaM2: number, { domain }: Answerable, units: UnitSystem): string {
  return `${formatArea(areaM2, units)} of ${term('surveyedHabitat')}, ${habitatBand(domain, units)} deep`;
}

function counted(result: Answerable, units: UnitSystem): string {
  const n = result.estimate.data.mussels_counted;
  return `On the ${searched(result, units)}, ${formatCount(n)} ${n === 1 ? 'mussel was' : 'mussels were'} counted.`;
}

/** `90 m² searched, at depths of 1.0 to 5.6 m` */
function searched({ estimate, survey }: Answerable, units: UnitSystem): string {
  const band = sampledBand(survey);
  const depths =
    band === null ? '' : `, at depths of ${formatDepthBand(band.fromM, band.toM, units)}`;
  return `${formatArea(estimate.data.area_searched_m2, units)} searched${depths}`;
}

function habitatNote({ survey, domain }: Answerable, units: UnitSystem): string | null {
  const band = sampledBand(survey);
  if (band === null) return null;
  return (
    `${capital(term('surveyedHabitat'))} is ${gloss('surveyedHabitat')}. Sampled depths: ` +
    `${formatDepthBand(band.fromM, band.toM, units)}, taken to hold for ${habitatBand(domain, units)}.`
  );
}

function intervalNote(level: number): string {
  return (
    `Every interval is a ${intervalName(level)} (${gloss('confidenceInterval')}) for the expected number; it covers ` +
    'chance in where mussels lay and in what was detected, not errors in the maps.'
  );
}
