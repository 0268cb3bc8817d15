/** What a change of the survey or of the analysis did to the lake's number. */

import type { Estimate } from '../../shared/estimate.ts';
import { term, terms } from '../../shared/glossary.ts';
import { quantityInShort } from './quantity.ts';

/** The number before the change; standard error and limits null where there were none. */
export interface Before {
  mussels: number | null;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

/** Changes below this share are called none. */
const NOTHING = 0.0005;
const AS_WIDE = 0.005;

/** `3 % more, the confidence interval 12 % narrower.`; null when there is nothing to compare. */
export function movedSentence(
  before: Before,
  { estimate }: { estimate: Pick<Estimate, 'abundance'> },
): string | null {
  const now = estimate.abundance?.mussels ?? null;
  if (before.mussels === null || now === null || !(before.mussels > 0)) return null;
  const change = now.estimate / before.mussels - 1;
  const number =
    Math.abs(change) < NOTHING
      ? 'The number has not moved'
      : `${percent(change)} ${change > 0 ? 'more' : 'fewer'}`;
  const [was, is] = [ratio(before.lower, before.upper), ratio(now.lower, now.upper)];
  if (was === null || is === null) return `${number}.`;
  const wider = Math.log(is) / Math.log(was) - 1;
  const interval =
    Math.abs(wider) < AS_WIDE
      ? 'as wide as before'
      : `${percent(wider)} ${wider > 0 ? 'wider' : 'narrower'}`;
  return `${number}, the ${term('confidenceInterval')} is ${interval}.`;
}

/** `Now 184,000 mussels (121,000 to 279,000); before 190,000 mussels (…).` */
export function nowAndBefore(
  before: Before,
  { estimate }: { estimate: Pick<Estimate, 'abundance'> },
): string {
  const now = estimate.abundance?.mussels ?? null;
  const is = now && quantityInShort(now, terms('mussel'));
  const was =
    before.mussels === null
      ? null
      : quantityInShort({ ...before, estimate: before.mussels }, terms('mussel'));
  return is === was
    ? `The lake's number did not move: ${is ?? 'there is none'}.`
    : `Now ${is ?? 'no lake-wide number'}; before ${was ?? 'there was none'}.`;
}

/** Upper over lower limit: the width of an interval that is even on a log scale. */
function ratio(lower: number | null, upper: number | null): number | null {
  return lower !== null && upper !== null && lower > 0 && upper > lower ? upper / lower : null;
}

function percent(share: number): string {
  const x = Math.abs(share) * 100;
  return `${x < 1 ? x.toFixed(1) : x.toFixed(0)} %`;
}
