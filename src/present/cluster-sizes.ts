/** Sizes of the detected clusters and what the fit expects of them: one grouping and one expectation everywhere. */

import { label, labels, term } from '../../shared/glossary.ts';
import type { SizeClass, SurveyResult } from '../../shared/result.ts';
import { formatCount, formatDigits } from '../../shared/units.ts';

export interface SizeRow {
  from: number;
  /** null = and more */
  to: number | null;
  /** `4`, `9 to 14`, `100 or more` */
  name: string;
  /** the same for an axis: `4`, `9–14`, `100+` */
  short: string;
  /** its first size alone: `9`, `100+` */
  start: string;
  observed: number;
  expected: number;
  observedText: string;
  expectedText: string;
}

export interface SizePicture {
  title: string;
  classes: SizeRow[];
  columns: { size: string; observed: string; expected: string };
  /** name of the axis of sizes */
  axis: string;
  described: string;
  note: string;
}

/** The parts of a result that are read here. */
export type SizeInput = Pick<SurveyResult, 'estimate' | 'survey' | 'expectedDetections'>;

/** Null when nothing was detected, or single mussels only. */
export function readSizes({
  expectedDetections,
}: Pick<SizeInput, 'expectedDetections'>): SizePicture | null {
  const by = expectedDetections?.bySize ?? null;
  if (by === null) return null;
  const classes = by.classes.map((c) => ({
    ...c,
    name: nameOf(c),
    ...shortOf(c),
    observedText: formatCount(c.observed),
    expectedText: formatDigits(c.expected, 3),
  }));
  return {
    title: labels('clusterSize'),
    classes,
    columns: { size: label('clusterSize'), observed: 'Detected', expected: 'Expected' },
    axis: term('clusterSize'),
    described: `${classes
      .map((c) => `${c.name}: ${c.observedText} detected, ${c.expectedText} expected`)
      .join('; ')}.`,
    note: `Bars: detected clusters by the number of mussels in them. Marks: expected by the fit. ${
      by.inDetection
        ? 'Larger clusters are detected more easily in this model, so those detected are larger on average than those present; the expected numbers are of detected clusters.'
        : 'Clusters of every size are taken to be detected equally well.'
    }`,
  };
}

/** What is said of the mean; null when nothing was detected. */
export function sizeSentence({
  estimate,
  survey,
}: Pick<SizeInput, 'estimate' | 'survey'>): string | null {
  const size = estimate.cluster_size;
  if (size === null) return null;
  if (survey.detections.every((d) => d.count === 1))
    return `Every detected cluster was a ${term('singleMussel')}.`;
  const error = size.se === null ? '' : ` (${term('standardError')} ${formatDigits(size.se, 2)})`;
  return `A cluster holds ${formatDigits(size.mean, 3)} mussels on average${error}, those that were missed included.`;
}

function nameOf({ from, to }: SizeClass): string {
  if (to === null) return `${formatCount(from)} or more`;
  return from === to ? String(from) : `${formatCount(from)} to ${formatCount(to)}`;
}

function shortOf({ from, to }: SizeClass): { short: string; start: string } {
  const first = from >= 1000 ? `${from / 1000}k` : String(from);
  const start = to === null ? `${first}+` : first;
  return { start, short: to === null || from === to ? start : `${first}–${to}` };
}
