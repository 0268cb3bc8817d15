/**
 * A change of which one survey detected nothing: how far it can go, what that search could have missed, and what that rests on.
 * Terminal, page and report say it word for word the same.
 */

import type { ChangeLimit, ChangeRow, PairChange, SearchOfNothing } from '../../shared/change.ts';
import { shortTerm, term, terms } from '../../shared/glossary.ts';
import {
  formatDigits,
  formatLandArea,
  formatPercent,
  type UnitSystem,
} from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { NONE, quantity, quantityInFull } from './quantity.ts';

/** Beyond that a limit is told as such a bound. */
const MOST_TIMES = 1000;

/** `at most 0.12 times as many`, or `at least 8.3`: rounded so that it still holds. */
export function limitInWords({ nothing_in, ratio }: ChangeLimit): string {
  return `${nothing_in === 'after' ? 'at most' : 'at least'} ${limitText(ratio, nothing_in === 'after')} times as many`;
}

/** The cells of a ratio that is a limit: none, the limit, no probability. */
export function limitCells({ nothing_in, ratio }: ChangeLimit): [string, string, string] {
  const isUpper = nothing_in === 'after';
  const shown = limitText(ratio, isUpper);
  return [NONE, isUpper ? `up to ${shown}` : `${shown} or more`, NONE];
}

function limitText(ratio: number, isUpper: boolean): string {
  if (ratio > MOST_TIMES) return formatDigits(isUpper ? ratio : MOST_TIMES, 2);
  if (ratio < 1 / MOST_TIMES) return isUpper ? String(1 / MOST_TIMES) : formatDigits(ratio, 2);
  const step = 10 ** (Math.floor(Math.log10(ratio)) - 1);
  const whole = isUpper ? Math.ceil(ratio / step - 1e-9) : Math.floor(ratio / step + 1e-9);
  return formatDigits(whole * step, 2);
}

const limitName = (interval: number, { nothing_in }: ChangeLimit): string =>
  nothing_in === 'after'
    ? `${formatPercent(interval)} ${term('upperLimit')}`
    : `${formatPercent(interval)} lower limit`;

/** `Nothing was detected in 2026: at most 0.12 times as many mussels as in 2025 (95 % upper limit).` */
export function limitHeadline(
  { before, after }: PairChange,
  limit: ChangeLimit,
  interval: number,
): string {
  const isUpper = limit.nothing_in === 'after';
  return `Nothing was detected in ${isUpper ? after : before}: ${limitInWords(limit)} ${terms('mussel')} in ${after} as in ${before} (${limitName(interval, limit)}).`;
}

/**
 * The answer, to be read aloud.
 * @param ground `On the common ground of …` @param when a survey with its dates
 */
export function limitOpening(
  { before, after, total }: PairChange,
  limit: ChangeLimit,
  interval: number,
  ground: string,
  when: (survey: string) => string,
): string {
  const isUpper = limit.nothing_in === 'after';
  const [empty, other] = isUpper ? [after, before] : [before, after];
  const [missed, counted] = isUpper ? [total.after, total.before] : [total.before, total.after];
  const there = quantityInFull(counted, terms('mussel'), interval);
  const upTo =
    missed.upper === null
      ? ''
      : `: ${quantity(missed).interval} ${terms('mussel')} could have been missed (${formatPercent(interval)} ${term('upperLimit')})`;
  return (
    `${ground} there were ${there} in ${when(other)}. In ${when(empty)} nothing was detected there, which does not show that there were none${upTo}. ` +
    `So there were ${limitInWords(limit)} in ${after} as in ${before}.`
  );
}

/** What the search would have shown, and whether a change could be seen. */
export function limitSure(
  { nothing_in, ratio, expected, seen }: ChangeLimit,
  pair: PairChange,
): string[] {
  const [empty, other] =
    nothing_in === 'after' ? [pair.after, pair.before] : [pair.before, pair.after];
  const found = formatDigits(expected, expected < 10 ? 2 : 3);
  return [
    `Had there been as many as in ${other}, the search of ${empty} would have brought about ${found} ${terms('detection')}.`,
    seen
      ? `As many as in ${other} lies beyond the limit: ${nothing_in === 'after' ? `there are fewer, by ${fewerBy(ratio)} or more` : 'there are more'}.`
      : `As many as in ${other} lies within the limit: no ${shortTerm('changeRatio')} could be seen.`,
  ];
}

/** In whole percent, rounded so that it still holds. */
const fewerBy = (ratio: number): string => formatPercent(Math.floor((1 - ratio) * 100) / 100);

/** Less of a search than this share on common ground is told. */
const ALL_SEARCHED = 0.995;

/** What a limit rests on. */
export function nothingSentences(
  { survey, other, strangers, searched_m2, of_m2 }: SearchOfNothing,
  units: UnitSystem,
): string[] {
  const taken =
    `Nothing detected tells nothing of the detection in ${survey}: that of ${other} is taken for it, and so are the ${term('countDistribution')}, how many ${terms('mussel')} a ${term('cluster')} has, ` +
    `and how ${terms('mussel')} are spread over ${terms('substrate')} and depths. Where they are spread otherwise, as where a treatment did not reach, the limit may not hold. A part has its limit by the search on it alone, which can lie above that of the whole.`;
  const who =
    strangers.length === 0
      ? []
      : [
          `${listed(strangers, 'and')} did not dive in ${other}, and ${strangers.length === 1 ? 'is' : 'are'} taken to detect like that ${term('observer')} of ${other} who detects least.`,
        ];
  const where =
    searched_m2 >= ALL_SEARCHED * of_m2
      ? []
      : [
          `Of the search in ${survey}, ${formatLandArea(searched_m2, units)} of ${formatLandArea(of_m2, units)} count: what lies on ${term('commonGround')} and was searched in ways that ${other} knows.`,
        ];
  return [taken, ...who, ...where];
}

/** The two numbers of a row; where a survey detected nothing at all, how many it could have missed there. */
export function countCells(
  row: ChangeRow,
  { before, after, nothing }: PairChange,
  cellOf: (q: ChangeRow['before']) => string,
): string[] {
  const cell = (q: ChangeRow['before'], survey: string): string =>
    nothing?.survey === survey ? (quantity(q).interval ?? NONE) : cellOf(q);
  return [cell(row.before, before), cell(row.after, after)];
}

/** What the limits of parts are, where both surveys detected something; empty without one. */
export function partSentences({ nothing, strata, areas }: PairChange): string[] {
  if (nothing !== null || ![...strata, ...areas].some(({ limit }) => limit !== null)) return [];
  return [
    `Where one of them detected nothing on a whole ${term('substrate')}, the limit of its ${shortTerm('changeRatio')} stands in place of a ratio, with the densities of the other and its own detection; the total leaves out what could have been missed there.`,
  ];
}
