/**
 * Detection probabilities read once: of each observer, of each pair of them, and of all clusters in the searched strips;
 * or why they are not estimable.
 */

import type { Estimate } from '../../shared/estimate.ts';
import { capital, gloss, label, labels, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Design } from '../../shared/survey.ts';
import { formatCount, formatDigits, formatPercent } from '../../shared/units.ts';
import { sizeSentence } from './cluster-sizes.ts';
import { byName, observerPlaces } from './observers.ts';
import { ciName, intervalName } from './quantity.ts';

/** Detection probability of one observer, or of two together. */
export interface DetectionRow {
  key: string;
  /** `Ada`, `Ada and Ben` */
  label: string;
  observers: { name: string; place: number }[];
  design: Design;
  p: number;
  lower: number | null;
  upper: number | null;
  /** `74 %`; `over 99 %` for what is not quite 1 */
  share: string;
  /** `58 % to 85 %`; null where there is none */
  interval: string | null;
  /** three decimals; null where there is none */
  se: string | null;
  /** taken as 1 because nobody searched behind them: no estimate */
  taken: boolean;
}

export interface DetectionGroup {
  design: Design;
  /** `On belt transects`, `On distance transects, at distance 0` */
  heading: string;
  /** false where every probability of the design was only taken as 1 */
  estimated: boolean;
  observers: DetectionRow[];
  /** the same whoever goes first, so each pair stands once */
  pairs: DetectionRow[];
}

export interface DetectionReading {
  title: string;
  /** what the term means, as a sentence */
  meaning: string;
  groups: DetectionGroup[];
  /** heads of the columns: who, design, detection probability, interval, standard error */
  columns: {
    observer: string;
    pair: string;
    design: string;
    p: string;
    interval: string;
    se: string;
  };
  captions: { observers: string; pairs: string };
  /** of the figure, below it */
  note: string;
  /** all figures in one text, for those who do not see the picture */
  described: string;
  /** where nobody searched behind the primary observer; null where somebody did everywhere */
  fixed: string | null;
  /** over all that was searched */
  mean: string;
}

/** The parts of a result that are read here. */
export type DetectionInput = Pick<SurveyResult, 'estimate' | 'survey' | 'analysis'>;

type Detection = NonNullable<Estimate['detection']>;

export const NOTHING_DETECTED = `Nothing was detected, so ${terms('detectionProbability')} are not estimable; the ${terms('upperLimit')} take it that every cluster in the searched strips is detected.`;

/** Null when nothing was detected. */
export function readDetection({
  estimate,
  survey,
  analysis,
}: DetectionInput): DetectionReading | null {
  const { detection } = estimate;
  if (detection === null) return null;
  const groups = groupsOf(detection, observerPlaces(survey.transects));
  const probability = label('detectionProbability');
  return {
    title: `${probability} of each ${term('observer')}`,
    meaning: `${probability}: the ${gloss('detectionProbability')}.`,
    groups,
    columns: {
      observer: label('observer'),
      pair: `${labels('observer')} together`,
      design: label('design'),
      p: probability,
      interval: ciName(analysis.interval),
      se: label('standardError'),
    },
    captions: {
      observers: `${probability} of each ${term('observer')}`,
      pairs: `${probability} of two observers together, whoever goes first`,
    },
    note: noteOf(groups, analysis.interval),
    described: describedOf(groups),
    fixed:
      detection.fixed === null
        ? null
        : `Where nobody searched behind the ${term('primaryObserver')}, their detection probability is taken as 1: the densities there are of detectable clusters.`,
    mean: `Over all that was searched ${percent(detection.mean_p)} of the clusters present were detected.`,
  };
}

function groupsOf(detection: Detection, places: ReadonlyMap<string, number>): DetectionGroup[] {
  const row = (design: Design, names: string[], q: Probability): DetectionRow => ({
    key: `${design} ${names.join(' + ')}`,
    label: names.join(' and '),
    observers: names.map((name) => ({ name, place: places.get(name) ?? 0 })),
    design,
    p: q.p,
    lower: q.lower,
    upper: q.upper,
    share: percent(q.p),
    interval:
      q.lower === null || q.upper === null ? null : `${percent(q.lower)} to ${percent(q.upper)}`,
    se: q.se === null ? null : q.se.toFixed(3),
    taken: q.p >= 1 && q.se === null && (q.lower === null || q.lower >= 1),
  });
  return (['belt', 'distance'] as const).flatMap((design) => {
    const observers = detection.observers
      .filter((o) => o.design === design)
      .map((o) => row(design, [o.observer], o));
    if (observers.length === 0) return [];
    const pairs = new Map<string, DetectionRow>();
    for (const pair of detection.pairs) {
      if (pair.design !== design) continue;
      const made = row(design, [pair.primary, pair.secondary].sort(byName), pair);
      if (!pairs.has(made.key)) pairs.set(made.key, made);
    }
    return [
      {
        design,
        heading: headingOf(design),
        estimated: observers.some((o) => !o.taken),
        observers,
        pairs: [...pairs.values()],
      },
    ];
  });
}

interface Probability {
  p: number;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

function headingOf(design: Design): string {
  const where = `On ${term(design)} ${terms('transect')}`;
  return design === 'belt' ? where : `${where}, on the line`;
}

function noteOf(groups: DetectionGroup[], interval: number): string {
  const parts = [`Lines: ${intervalName(interval)}s. A mark is an ${term('observer')}.`];
  if (groups.some((g) => g.pairs.length > 0)) parts.push('A pair is what the two detect together.');
  if (groups.some((g) => g.design === 'distance'))
    parts.push(
      `On ${term('distance')} ${terms('transect')} it is the probability at ${term('perpendicularDistance')} 0.`,
    );
  return parts.join(' ');
}

function describedOf(groups: DetectionGroup[]): string {
  const each = groups.flatMap((g) =>
    g.observers.map((o) => {
      const interval = o.interval === null ? '' : ` (${o.interval})`;
      return `${o.label}, ${g.heading.charAt(0).toLowerCase()}${g.heading.slice(1)}: ${o.taken ? 'taken as 1' : `${o.share}${interval}`}`;
    }),
  );
  return `${each.join('; ')}.`;
}

/** Whole percent, but 99.9 is not 100. */
function percent(p: number): string {
  if (p < 1 && p > 0.99) return 'over 99 %';
  return formatPercent(Number(p.toFixed(2)));
}

/** Clusters in the searched strips: detected in either role, and what is estimated to have been missed. */
export interface ClustersPresent {
  /** detected and missed together */
  present: number;
  title: string;
  parts: { kind: 'primary' | 'secondary' | 'missed'; name: string; value: number; text: string }[];
  total: { name: string; text: string };
  columns: { part: string; number: string };
  described: string;
  /** where nobody searched behind the primary observer; null elsewhere */
  note: string | null;
}

/**
 * Σn / p̄ over the survey, p̄ the mean detection probability: the design-based density times the searched area. Null when
 * nothing was detected.
 */
export function clustersPresent({ estimate, survey }: DetectionInput): ClustersPresent | null {
  const { detection } = estimate;
  const detected = survey.detections.length;
  if (detection === null || detected === 0) return null;
  const secondary = survey.detections.filter((d) => d.role === 'secondary').length;
  const present = detected / detection.mean_p;
  const missed = Math.max(0, present - detected);
  const about = `about ${formatDigits(present, 2)}`;
  const parts: ClustersPresent['parts'] = [
    {
      kind: 'primary',
      name: `detected by the ${term('primaryObserver')}`,
      value: detected - secondary,
      text: formatCount(detected - secondary),
    },
    {
      kind: 'secondary',
      name: `added by the ${term('secondaryObserver')}`,
      value: secondary,
      text: formatCount(secondary),
    },
    {
      kind: 'missed',
      name: 'missed by both, estimated',
      value: missed,
      text: `about ${formatDigits(missed, 2)}`,
    },
  ];
  return {
    present,
    title: 'Clusters detected, and clusters present',
    parts: parts.filter((p) => p.value > 0),
    total: { name: 'present in all, estimated', text: about },
    columns: { part: labels('cluster'), number: 'Number' },
    described: `Of ${about} clusters in the searched strips ${formatCount(detected)} were detected: ${formatCount(detected - secondary)} by the ${term('primaryObserver')}, ${formatCount(secondary)} more by the ${term('secondaryObserver')}.`,
    note:
      detection.fixed === null
        ? null
        : `Where nobody searched behind the ${term('primaryObserver')}, what they missed on the line is not in this.`,
  };
}

/** The first words on detection: a sentence with one part to be set off, and what follows it. */
export interface DetectionOpening {
  sentence: [before: string, strong: string, after: string];
  lead: string;
}

export function detectionOpening(result: DetectionInput): DetectionOpening {
  const { detection } = result.estimate;
  if (detection === null)
    return {
      sentence: [
        `Nothing was detected, so the ${term('detectionProbability')} is `,
        'not estimable',
        '.',
      ],
      lead: 'The limits at the other stations take it that every cluster in the searched strips is detected; if some are missed, more could be there.',
    };
  const size = sizeSentence(result);
  const more = size === null ? '' : ` ${size}`;
  if (detection.fixed !== null)
    return {
      sentence: [
        `${capital(term('detectionProbability'))} is not estimable, because on some or all ${terms('transect')} `,
        `there was no ${term('secondaryObserver')}`,
        '.',
      ],
      lead: `It is taken as 1 there; every density is that of detectable clusters. A ${term('secondaryObserver')}, with the two swapping roles between transects, would make it estimable.${more}`,
    };
  const counted = clustersPresent(result);
  const numbers =
    counted === null
      ? ''
      : `: ${formatCount(result.survey.detections.length)} ${terms('cluster')} detected, ${counted.total.text} present`;
  return {
    sentence: [
      'Of every ten clusters in the searched strips about ',
      ofTen(detection.mean_p),
      ' were detected.',
    ],
    lead: `A ${term('detectionProbability')} of ${formatPercent(Number(detection.mean_p.toFixed(2)))} over all that was searched${numbers}.${more}`,
  };
}

const NUMBERS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** 0.716 → `seven`; near the ends in words that do not promise all or nothing. */
export function ofTen(share: number): string {
  if (share >= 0.95) return 'more than nine';
  if (share < 0.05) return 'fewer than one';
  return NUMBERS[Math.round(share * 10)] ?? 'nine';
}
