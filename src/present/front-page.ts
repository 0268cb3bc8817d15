/**
 * The report's first page in words, in the reader's language: the answer with its depths, in hectares and acres, and how
 * sure it is in three sentences. The short version begins with the same page.
 */

import type { Estimate, Quantity } from '../../shared/estimate.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { type Formatter, formatter } from '../../shared/strings/formatter.ts';
import type { Language } from '../../shared/strings/languages.ts';
import { REPORT, type ReportTable } from '../../shared/strings/report/index.ts';
import { missingMaps } from './answer.ts';
import { type CheckWords, readChecks } from './checks.ts';
import type { DensityPicture } from './density-curve.ts';
import { sampledBand } from './depths.ts';
import { searched } from './searched.ts';

/** Entries of the report's tables of strings, filled. */
export type ReportWords = Formatter<ReportTable>;

export function reportWords(language: Language): ReportWords {
  return formatter(language, REPORT[language]);
}

export type FrontInput = Pick<
  SurveyResult,
  'estimate' | 'survey' | 'analysis' | 'lake' | 'domain' | 'checks'
>;

export interface FrontPage {
  heading: string;
  /** which lake, and when */
  surveyed: string;
  /** sentences, the first the answer itself */
  answer: [first: string, ...others: string[]];
  /** three sentences, fewer where nothing was detected or compared */
  sure: string[];
  /** checks that fail, in full (English): who acts on the number should know them */
  failing: CheckWords[];
}

export function readFrontPage(result: FrontInput, words: ReportWords): FrontPage {
  return {
    heading: words.say('heading'),
    surveyed: words.say('surveyed', placeAndTime(result, words)),
    answer: answerOf(result, words),
    sure: result.estimate.data.detections === 0 ? [] : sureOf(result, words),
    failing: (readChecks(result) ?? []).filter(
      ({ verdict, name }) => verdict === 'fails' && name !== 'design-based',
    ),
  };
}

/** Of a mark on a log axis: powers of ten, and three times them. */
const MOST_DECIMALS = 9;

/** What is said of the figure of density against depth. */
export interface DensityWords {
  title: string;
  note: string;
  described: string;
  /** name of the axis of densities, and its marks */
  axis: string;
  mark(density: number): string;
  /** of each curve */
  names: string[];
}

export function densityWords(
  result: FrontInput,
  density: DensityPicture,
  words: ReportWords,
): DensityWords {
  const list = new Intl.ListFormat(words.tag);
  const names = density.curves.map((c) => list.format(c.classes));
  return {
    title: words.say('densityTitle', placeAndTime(result, words)),
    note: words.say('densityNote', { level: levelOf(result) }),
    described: words.say('densityDescribed', {
      substrates: names.join(', '),
    }),
    axis: words.say('densityAxis'),
    mark: (x) => words.number(x, MOST_DECIMALS),
    names,
  };
}

/** What every caption names, so that it can stand alone. */
export function placeAndTime(
  { estimate, survey }: Pick<FrontInput, 'estimate' | 'survey'>,
  words: ReportWords,
): { lake: string; days: string } {
  return { lake: estimate.lake, days: words.days(searched(survey, []).days) };
}

/** The depths that the number holds for, as placeholders take them. */
export function habitatDepths({ domain }: Pick<FrontInput, 'domain'>, words: ReportWords) {
  return {
    from: words.metres(domain.depthFromM),
    to: words.metres(domain.depthToM),
    fromFeet: words.feet(domain.depthFromM),
    toFeet: words.feet(domain.depthToM),
  };
}

/** `95` of 0.95 */
export const levelOf = ({ analysis }: Pick<FrontInput, 'analysis'>): number =>
  Number((100 * analysis.interval).toPrecision(4));

export function land(areaM2: number, words: ReportWords): { hectares: string; acres: string } {
  return { hectares: words.hectares(areaM2), acres: words.acres(areaM2) };
}

function answerOf(result: FrontInput, words: ReportWords): FrontPage['answer'] {
  const { data, abundance, detection } = result.estimate;
  if (data.detections === 0) return nothingDetected(result, words);
  const counted = words.say('counted', { count: data.mussels_counted, ...effort(result, words) });
  if (abundance === null) return [whyNoNumber(result, words), ...along(result, words), counted];
  return [
    lakeWide(result, abundance, words),
    ...farAway(result, words),
    counted,
    ...(detection?.fixed == null ? [] : [words.say('missed')]),
  ];
}

function lakeWide(
  result: FrontInput,
  { mussels, clusters, area_m2 }: NonNullable<Estimate['abundance']>,
  words: ReportWords,
): string {
  const { estimate, lower, upper } = words.range(mussels ?? clusters);
  const where = { ...land(area_m2, words), ...habitatDepths(result, words) };
  const ofMussels = mussels !== null;
  if (lower === null || upper === null)
    return words.say(ofMussels ? 'answerWithoutInterval' : 'answerClustersWithoutInterval', {
      estimate,
      ...where,
    });
  const level = levelOf(result);
  return words.say(ofMussels ? 'answer' : 'answerClusters', {
    estimate,
    level,
    lower,
    upper,
    ...where,
  });
}

/** A smaller share of the surveyed habitat is not worth a sentence. */
const LEAST_FAR_SHARE = 0.01;

function farAway({ estimate: { far_from_transects: far } }: FrontInput, words: ReportWords) {
  if (far === null || far.area_share < LEAST_FAR_SHARE) return [];
  const areaShare = Math.round(100 * far.area_share);
  const spacing = words.number(Number(far.spacing_m.toPrecision(2)));
  if (far.mussels_share === null) return [words.say('farArea', { areaShare, spacing })];
  const musselsShare = Math.round(100 * far.mussels_share);
  return [words.say('far', { areaShare, musselsShare, spacing })];
}

function nothingDetected(result: FrontInput, words: ReportWords): FrontPage['answer'] {
  const { abundance } = result.estimate;
  const first = words.say('nothingDetected', effort(result, words));
  if (abundance === null || abundance.clusters.upper === null)
    return [first, words.say('nothingNoLimit')];
  const { upper } = words.range({ ...abundance.clusters, lower: 0 });
  return [
    first,
    words.say('nothingLimit', {
      upper: upper ?? '',
      level: levelOf(result),
      ...land(abundance.area_m2, words),
      ...habitatDepths(result, words),
    }),
  ];
}

function whyNoNumber({ lake }: FrontInput, words: ReportWords): string {
  const missing = missingMaps(lake);
  if (missing.length === 0) return words.say('noBed');
  return words.say('noMaps', { files: new Intl.ListFormat(words.tag).format(missing) });
}

/** The density on the searched bed, where there is no map to carry it to. */
function along(result: FrontInput, words: ReportWords): string[] {
  const density = result.estimate.design_based.clusters_per_m2;
  if (density === null) return [];
  const corrected = result.estimate.detection?.fixed == null;
  const { estimate, lower, upper } = words.range(density);
  if (lower === null || upper === null)
    return [
      words.say(corrected ? 'alongWithoutInterval' : 'alongDetectedWithoutInterval', { estimate }),
    ];
  const level = levelOf(result);
  return [words.say(corrected ? 'along' : 'alongDetected', { estimate, level, lower, upper })];
}

/** What was searched: its area and the depths recorded there. */
function effort({ estimate, survey, domain }: FrontInput, words: ReportWords) {
  const band = sampledBand(survey) ?? { fromM: domain.depthFromM, toM: domain.depthToM };
  const areaM2 = estimate.data.area_searched_m2;
  return {
    squareMetres: words.number(areaM2, areaM2 < 10 ? 1 : 0),
    from: words.metres(band.fromM),
    to: words.metres(band.toM),
  };
}

function sureOf(result: FrontInput, words: ReportWords): string[] {
  return [covers(result, words), ...againstDesign(result, words), ...checked(result, words)];
}

function covers(result: FrontInput, words: ReportWords): string {
  const { bootstrap, abundance } = result.estimate;
  const level = levelOf(result);
  const limits = abundance?.mussels == null ? bootstrap?.clusters : bootstrap?.mussels;
  if (bootstrap === null || limits == null || abundance === null)
    return words.say('covers', { level });
  // rounded as the number itself is
  const shown = words.range({ ...(abundance.mussels ?? abundance.clusters), ...limits });
  return words.say('coversBootstrap', {
    level,
    replicates: bootstrap.replicates,
    lower: shown.lower ?? '',
    upper: shown.upper ?? '',
  });
}

/** The answer without a habitat model; nothing where the answer itself gives this density and the two agree. */
function againstDesign({ estimate, checks }: FrontInput, words: ReportWords): string[] {
  const density = estimate.design_based.clusters_per_m2;
  const check = (checks?.checks ?? []).find((c) => c.name === 'design-based');
  if (density === null || check?.name !== 'design-based') return [];
  const agree = check.verdict === 'holds';
  if (agree && estimate.abundance === null) return [];
  const shown = (clustersPerM2: number): string => {
    const own: Quantity = { ...density, estimate: clustersPerM2 };
    return words.range(own).estimate;
  };
  const both = { design: shown(check.design), model: shown(check.model) };
  return [words.say(agree ? 'agrees' : 'disagrees', both)];
}

function checked({ checks }: FrontInput, words: ReportWords): string[] {
  const all = checks?.checks ?? [];
  if (all.length === 0) return [];
  const count = (verdict: CheckWords['verdict']) => all.filter((c) => c.verdict === verdict).length;
  const holds = count('holds');
  if (holds === all.length) return [words.say('allHold', { count: holds })];
  return [
    words.say('someHold', {
      all: all.length,
      holds,
      doubtful: count('doubtful'),
      fails: count('fails'),
      untestable: count('saturated'),
    }),
  ];
}
