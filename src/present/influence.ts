/** How far the total moves without each transect, ready to be drawn: the strongest first, the others in words. */

import { extent } from '../../shared/extent.ts';
import { counted } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { visible } from '../../shared/words.ts';

export interface Influence {
  transect: string;
  /** the same, safe to print */
  name: string;
  /** relative change of the total without it */
  change: number;
  /** `−12.5 %` */
  text: string;
}

export interface Influences {
  shown: Influence[];
  /** the axis reaches so far to either side */
  reach: number;
  /** what the weaker ones do, and which cannot be left out; null when there are none of either */
  others: string | null;
  /** all that is shown in a sentence */
  described: string;
}

/** The axis reaches this far at least, so that small changes look small. */
const LEAST_REACH = 0.1;

/** The `most` transects that move the total most, strongest first; null without a total. */
export function readInfluence(
  { checks, survey }: Pick<SurveyResult, 'checks' | 'survey'>,
  most: number,
): Influences | null {
  const all = survey.transects
    .flatMap(({ transect }, i): Influence[] => {
      const change = checks?.influence[i] ?? null;
      return change === null
        ? []
        : [{ transect, name: visible(transect), change, text: changeText(change) }];
    })
    .sort((a, b) => Math.abs(b.change) - Math.abs(a.change));
  if (all.length === 0) return null;
  const shown = all.slice(0, most);
  const sentences = [
    weaker(all.slice(most)),
    notLeftOut(survey.transects.length - all.length),
  ].filter((s) => s !== null);
  return {
    shown,
    reach: extent([LEAST_REACH, ...shown.map((i) => Math.abs(i.change))])[1],
    others: sentences.length === 0 ? null : sentences.join(' '),
    described: `${shown.map((i) => `without ${i.name} ${i.text}`).join('; ')}.`,
  };
}

function weaker(rest: Influence[]): string | null {
  const [first] = rest;
  if (first === undefined) return null;
  return `The other ${rest.length === 1 ? 'one moves' : `${rest.length} move`} it by ${changeText(Math.abs(first.change)).replace('+', '')} at most.`;
}

function notLeftOut(n: number): string | null {
  return n === 0
    ? null
    : `${counted(n, n === 1 ? 'One' : String(n), 'transect')} cannot be left out: the rest would not give this model.`;
}

/** `−12.5 %`, `+4.0 %`, `0 %`; `decimals` 0 for the marks of an axis. */
export function changeText(share: number, decimals = 1): string {
  const text = Math.abs(share * 100).toFixed(decimals);
  return Number(text) === 0 ? '0 %' : `${share < 0 ? '−' : '+'}${text} %`;
}
