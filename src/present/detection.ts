/**
 * Detection probabilities read once: of each observer, of each pair of them, and of all clusters in the searched strips;
 * or why they are not estimable.
 */

import type { Estimate } from '../../shared/estimate.ts';
import { counted, gloss, label, labels, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Design, Survey, Transect } from '../../shared/survey.ts';
import { formatCount, formatPercent } from '../../shared/units.ts';
import { byName, observerPlaces } from './observers.ts';
import { plantedWords } from './planted-shells.ts';
import { ciName, intervalName, probabilityText } from './quantity.ts';

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
  /** why that is less than what two detect together; null where it is not, or nothing explains it */
  why: string | null;
  /** what the secondary observers added where there was one; null where there was none */
  added: string | null;
  /** what planted shells say of those that nobody can detect; null without any */
  planted: string | null;
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
    mean: `Over all that was searched ${probabilityText(detection.mean_p)} of the clusters present were detected.`,
    why: whyLower(detection, survey.transects),
    added: addedBySecond(survey),
    planted: plantedWords(estimate, analysis.interval),
  };
}

/** The mean is over all effort, the pairs' are for two observers on the line. */
function whyLower({ mean_p, pairs }: Detection, transects: readonly Transect[]): string | null {
  if (!pairs.some((pair) => pair.p > mean_p)) return null;
  const single = transects.filter((t) => t.secondary === null).length;
  const causes = [
    ...(single === 0
      ? []
      : [
          `${single} of ${counted(transects.length, String(transects.length), 'transect')} had one ${term('observer')} only`,
        ]),
    ...(transects.some((t) => t.design === 'distance')
      ? [`on ${term('distance')} ${terms('transect')} detection falls away from the line`]
      : []),
  ];
  if (causes.length === 0) return null;
  return `That is less than two ${terms('observer')} detect together, because ${causes.join(', and ')}.`;
}

function addedBySecond({ transects, detections }: Survey): string | null {
  const pairs = new Set(transects.filter((t) => t.secondary !== null).map((t) => t.transect));
  const there = detections.filter((d) => pairs.has(d.transect));
  const first = there.filter((d) => d.role === 'primary').length;
  if (first === 0) return null;
  const more = there.length - first;
  return `Where two ${terms('observer')} searched, the ${term('secondaryObserver')} added ${formatPercent(Number((more / first).toFixed(2)))} on average to what the ${term('primaryObserver')} had detected (${formatCount(more)} to ${formatCount(first)}).`;
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
    share: probabilityText(q.p),
    interval:
      q.lower === null || q.upper === null
        ? null
        : `${probabilityText(q.lower)} to ${probabilityText(q.upper)}`,
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
