/**
 * Detection probabilities read once: of each observer, of each pair of them, and of all clusters in the searched strips;
 * or why they are not estimable.
 */

import type { Estimate } from '../../shared/estimate.ts';
import { gloss, label, labels, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Design } from '../../shared/survey.ts';
import { formatPercent } from '../../shared/units.ts';
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
  /** of the figure, below it; `pairNote` where it shows the pairs too, '' without any */
  note: string;
  pairNote: string;
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
    pairNote: groups.some((g) => g.pairs.length > 0)
      ? 'A pair is what the two detect together.'
      : '',
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
