/** Cluster sizes: how many clusters of each size were found, against the fitted distribution 1 + K, K negative binomial. */

import { negativeBinomialCdf, poissonCdf } from '../../../models/numbers/special.ts';
import type { Coefficient, Estimate } from '../../../shared/estimate.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { formatCount, formatDigits } from '../../../shared/units.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  mark,
  outline,
  picture,
  place,
  roundSteps,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 54, right: WIDTH - 8, top: 28, bottom: 216 };
const LEGEND_Y = BOX.bottom + 62;
/** Sizes up to this one by one, then in classes that begin here, as wide as the page allows. */
const SINGLE = 8;
const STARTS = [9, 15, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000];
/** Room that the label of a class needs. */
const LABEL = 26;
/** … with both of its ends. */
const RANGE = 40;

export type SizeView = Pick<SurveyResult, 'estimate' | 'survey' | 'segments'>;

export interface SizeClass {
  from: number;
  /** null = and more */
  to: number | null;
  found: number;
  expected: number;
}

/** An SVG element; null when nothing was found, or lone mussels only. */
export function sizeFigure(view: SizeView): Html | null {
  const classes = sizeClasses(view);
  if (classes === null) return null;
  const steps = roundSteps(0, Math.max(...classes.map((c) => Math.max(c.found, c.expected)), 1), 4);
  const y = linear(0, steps.at(-1)!, BOX.bottom, BOX.top);
  const each = (BOX.right - BOX.left) / classes.length;
  const middle = (i: number) => place(BOX.left + each * (i + 0.5));
  return picture(
    'sizes',
    LEGEND_Y + 12,
    'Clusters found by the number of mussels in them',
    `${classes.map((c) => `${name(c)}: ${formatCount(c.found)} found, ${formatDigits(c.expected, 3)} expected`).join('; ')}.`,
    html`${leftAxis(
      BOX,
      steps.map((s) => ({ at: y(s), label: tickLabel(s) })),
      'clusters found',
      true,
    )}
${classes.map((c, i) => html`<rect class="found" x="${place(middle(i) - each * 0.38)}" y="${y(c.found)}" width="${place(each * 0.76)}" height="${place(BOX.bottom - y(c.found))}" fill="${INK.water}" stroke="${INK.quiet}"/>`)}
${bottomAxis(
  BOX,
  classes.map((c, i) => ({ at: middle(i), label: tick(c, i, each) })),
  'mussels in a cluster',
  false,
)}
${outline(BOX)}
${classes.map((c, i) => mark(3, middle(i), y(c.expected), false))}
<rect x="${BOX.left}" y="${LEGEND_Y - 7}" width="22" height="12" fill="${INK.water}" stroke="${INK.quiet}"/><text x="${BOX.left + 30}" y="${LEGEND_Y + 4}">found</text>${mark(3, BOX.left + 106, LEGEND_Y - 1, false)}<text x="${BOX.left + 122}" y="${LEGEND_Y + 4}">fitted</text>`,
  );
}

/** Words under the figure. */
export function sizeCaption({ coefficients }: Estimate): string {
  const sized = coefficients.some((c) => c.part === 'detection' && c.term === 'log_count');
  return sized
    ? 'Fitted: the sizes of all clusters, the missed included. Large clusters are easier to see, so more of them are found, and fewer of the small ones, than the fitted shares.'
    : 'Fitted: 1 + a negative binomial number; divers are taken to see clusters of every size equally well.';
}

/** Found and fitted clusters by size; the fit has each cluster's own substrate. Null when there is nothing to compare. */
export function sizeClasses({ estimate, survey, segments }: SizeView): SizeClass[] | null {
  const sizes = estimate.coefficients.filter((c) => c.part === 'size');
  const intercept = sizes.find((c) => c.term === 'intercept');
  if (survey.detections.length === 0 || intercept === undefined) return null;
  const size = estimate.cluster_size?.k ?? null;
  const means = new Map<number, number>();
  for (const s of segments) {
    if (s.detections.length === 0) continue;
    const mean = Math.exp(intercept.estimate + substrateTerm(sizes, s.substrate));
    means.set(mean, (means.get(mean) ?? 0) + s.detections.length);
  }
  /** expected clusters of at most `count` mussels */
  const upTo = (count: number): number => {
    let sum = 0;
    for (const [mean, clusters] of means) {
      const k = count - 1;
      sum += clusters * (size === null ? poissonCdf(k, mean) : negativeBinomialCdf(k, mean, size));
    }
    return sum;
  };
  const counts = survey.detections.map((d) => d.count);
  return classesFor(Math.max(...counts)).map(({ from, to }) => ({
    from,
    to,
    found: counts.filter((c) => c >= from && (to === null || c <= to)).length,
    expected: (to === null ? counts.length : upTo(to)) - (from === 1 ? 0 : upTo(from - 1)),
  }));
}

/** Equal weights over the classes of a mixture, as in the model; a class without a term is the reference or takes its value. */
function substrateTerm(sizes: Coefficient[], substrate: string[]): number {
  const term = (name: string) => sizes.find((c) => c.term === `substrate:${name}`)?.estimate ?? 0;
  return substrate.reduce((sum, name) => sum + term(name) / substrate.length, 0);
}

/** 1, 2, … 8, then wider; the last class is open and holds the largest cluster found. */
function classesFor(largest: number): { from: number; to: number | null }[] {
  const starts = Array.from({ length: Math.max(2, Math.min(SINGLE, largest)) }, (_, i) => i + 1);
  if (largest > SINGLE) starts.push(...STARTS.filter((s) => s <= largest));
  return starts.map((from, i) => ({ from, to: i + 1 < starts.length ? starts[i + 1]! - 1 : null }));
}

function name({ from, to }: SizeClass): string {
  if (to === null) return `${formatCount(from)} or more`;
  return from === to ? String(from) : `${formatCount(from)} to ${formatCount(to)}`;
}

/** Every class where there is room, else every second or third. */
function tick({ from, to }: SizeClass, i: number, room: number): string {
  if (i % Math.ceil(LABEL / room) !== 0) return '';
  const start = from >= 1000 ? `${from / 1000}k` : String(from);
  if (to === null) return `${start}+`;
  return from === to || room < RANGE ? start : `${start}–${to}`;
}
