/** The result as a person at a terminal reads it: searched, seen, dense where, how many, and what to mind. */

import type { Estimate, Quantity } from '../../shared/estimate.ts';
import type { DensityCurve, SurveyResult } from '../../shared/result.ts';
import {
  formatArea,
  formatCount,
  formatDepth,
  formatDepthBand,
  formatDigits,
  formatLandArea,
  formatPercent,
  formatToStep,
  roundingStep,
} from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { checkOf } from '../present/checks.ts';
import { readNotices } from '../present/notices.ts';
import { bootstrapSentence, designSentence } from '../present/sureness.ts';
import { answerSentence, sampledBand } from '../publish/answer.ts';
import { bySubstrate, outsideWords } from '../publish/habitat.ts';
import { checkLines, modelLines } from './model-summary.ts';
import { noticeLines } from './notices.ts';
import { columns, wrap } from './text.ts';

/** With more strata than this the terminal shows substrates only; the strata are in strata.csv. */
const MOST_STRATA = 30;

export interface SummaryOptions {
  /** sets headings off on a screen that can */
  bold: boolean;
  /** the same screen shows the notices already: their number is enough */
  noticesPrinted?: boolean;
}

/** Text of at most 80 columns. */
export function summary(
  result: SurveyResult,
  { bold, noticesPrinted = false }: SummaryOptions,
): string {
  const { estimate, analysis, findings } = result;
  const notices = readNotices(findings);
  const interval = formatPercent(analysis.interval);
  const heading = (text: string) => (bold ? `\u001b[1m${text}\u001b[0m` : text);
  const parts: [string, string | null][] = [
    ['What was searched', searched(result)],
    [`What divers see: share of the clusters in their path (${interval} intervals)`, seen(result)],
    [`Density by habitat (${interval} intervals)`, density(result)],
    ['Answer', answer(result)],
    ['Not in the number', outside(estimate)],
    ['Models compared', modelLines(result)],
    ['Does the model fit', checkLines(result)],
    [notices.title, noticesPrinted && notices.count > 0 ? '  As above.' : noticeLines(notices)],
  ];
  const shown = parts
    .filter(([, text]) => text !== null && text !== '')
    .map(([title, text]) => `${heading(title)}\n${printable(text!)}\n`);
  return `${heading(visible(estimate.lake))}\n\n${shown.join('\n')}`;
}

/** Names come from files: a control character in one must not reach the terminal. */
function printable(text: string): string {
  return text.split('\n').map(visible).join('\n');
}

function searched({ estimate, survey }: SurveyResult): string {
  const { data } = estimate;
  const belts = survey.transects.filter((t) => t.design === 'belt').length;
  const days = [...new Set(survey.transects.map((t) => t.date))].sort();
  const band = sampledBand(survey);
  return [
    `${data.transects} transects (${belts} belt, ${data.transects - belts} distance)${dayWords(days)}`,
    `${formatArea(data.area_searched_m2)} of bed in ${formatCount(data.segments)} segments${
      band === null ? '' : `, ${formatDepthBand(band.fromM, band.toM)} deep`
    }`,
    `${formatCount(data.mussels_counted)} mussels counted in ${formatCount(data.detections)} clusters`,
  ]
    .map((line) => wrap(line, '  ', '    '))
    .join('\n');
}

function dayWords(days: string[]): string {
  if (days.length === 0) return '';
  if (days.length === 1) return ` on ${days[0]}`;
  return ` on ${days.length} days, ${days[0]} to ${days.at(-1)}`;
}

function seen({ estimate, survey }: SurveyResult): string {
  const { detection, cluster_size } = estimate;
  if (detection === null)
    return wrap(
      'Nothing was found, so this is not known; limits take it that they see everything.',
      '  ',
    );
  const rows = detection.observers.map((o) => [
    o.observer,
    o.design,
    o.p.toFixed(2),
    o.lower === null || o.upper === null ? '' : `${o.lower.toFixed(2)} to ${o.upper.toFixed(2)}`,
  ]);
  const lines: string[] =
    rows.length === 0 ? [] : [columns(rows, ['left', 'left', 'right', 'left'], '  ')];
  if (detection.fixed !== null)
    lines.push(
      wrap(
        'Nobody searched after the first diver, so the share of that diver is taken as 1: density of detectable clusters.',
        '  ',
      ),
    );
  lines.push(
    wrap(
      `Over all that was searched ${detection.mean_p.toFixed(2)} of the clusters were found.`,
      '  ',
    ),
  );
  if (cluster_size !== null)
    lines.push(
      wrap(
        survey.detections.every((d) => d.count === 1)
          ? 'Every cluster that was found was a lone mussel.'
          : `A cluster holds ${formatDigits(cluster_size.mean, 3)} mussels on average.`,
        '  ',
      ),
    );
  return lines.join('\n');
}

/** By substrate and metre of depth where there is a lake, else some points of the density curves. */
function density({ estimate, curves }: SurveyResult): string | null {
  if (estimate.data.detections === 0) return null;
  if (estimate.strata !== null && estimate.strata.length > 0) return strata(estimate.strata);
  return curves.length === 0 ? null : curvePoints(curves);
}

function strata(all: NonNullable<Estimate['strata']>): string {
  const each = all.length <= MOST_STRATA;
  const rows = [['bed', 'area', 'per m²', 'interval', 'mussels', 'interval']];
  for (const sum of bySubstrate(all)) {
    const perM2 = sum.perM2 === null ? '–' : formatDigits(sum.perM2, 3);
    const mussels = sum.mussels === null ? '–' : formatDigits(sum.mussels, 3);
    rows.push([sum.substrate, formatLandArea(sum.areaM2), perM2, '', mussels, '']);
    if (each)
      for (const s of sum.strata)
        rows.push([
          `  ${s.depth_from_m}–${s.depth_to_m} m`,
          formatLandArea(s.area_m2),
          ...cells(s.mussels_per_m2),
          ...cells(s.mussels),
        ]);
  }
  const text = columns(rows, ['left', 'right', 'right', 'right', 'right', 'right'], '  ');
  return each ? text : `${text}\n  (by metre of depth, with intervals: strata.csv)`;
}

/** Density at the shallow end, the middle and the deep end of each curve. */
function curvePoints(curves: DensityCurve[]): string {
  const rows = [['bed', 'depth', 'mussels per m²', 'interval']];
  for (const c of curves) {
    const last = c.depthM.length - 1;
    for (const i of new Set([0, Math.round(last / 2), last])) {
      const limit = (x: number | undefined) => (x !== undefined && Number.isFinite(x) ? x : null);
      const q = {
        estimate: c.musselsPerM2[i]!,
        se: null,
        cv: null,
        lower: limit(c.lower[i]),
        upper: limit(c.upper[i]),
      };
      rows.push([c.substrate.join('+'), formatDepth(c.depthM[i]!), ...cells(q)]);
    }
  }
  return columns(rows, ['left', 'right', 'right', 'right'], '  ');
}

function cells(q: Quantity | null): [string, string] {
  if (q === null) return ['–', '–'];
  const step = roundingStep(q);
  const show = (x: number) => formatToStep(x, step);
  if (q.upper === null || q.lower === null) return [show(q.estimate), '–'];
  if (q.estimate === 0) return ['0', `up to ${show(q.upper)}`];
  return [show(q.estimate), `${show(q.lower)} to ${show(q.upper)}`];
}

/** The sentence, then other ways to the same number: from redrawn transects, and without a habitat model. */
function answer(result: SurveyResult): string {
  const design = checkOf(result, 'design-based');
  // without a lake-wide number the sentence itself gives the density along the transects
  const told = result.estimate.abundance === null && design?.verdict === 'holds';
  return [answerSentence(result), bootstrapSentence(result), told ? null : designSentence(result)]
    .filter((sentence) => sentence !== null)
    .map((sentence) => wrap(sentence, '  '))
    .join('\n');
}

function outside({ outside: parts, abundance }: Estimate): string | null {
  const rows = (parts ?? [])
    .filter((o) => o.area_m2 > 0)
    .map((o) => [formatLandArea(o.area_m2), outsideWords(o.reason)]);
  if (abundance !== null && abundance.unmapped_area_m2 > 0)
    rows.push([formatLandArea(abundance.unmapped_area_m2), 'no substrate on the map']);
  return rows.length === 0 ? null : columns(rows, ['right', 'left'], '  ');
}
