/** A few more dives in words: what they are expected to bring, by precision alone. */

import { term, terms } from '../../shared/glossary.ts';
import type { FewMore } from '../../shared/planning.ts';
import { formatCount } from '../../shared/units.ts';
import { cvText } from './plan.ts';

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

export interface FewMoreRead {
  /** `Four more belt transects bring the CV to 15 %.` */
  sentence: string;
  /** why nothing but the CV is looked at */
  rule: string;
  head: string[];
  rows: string[][];
}

export function readFewMore({ design, current_cv, goal, more, enough }: FewMore): FewMoreRead {
  const many = (n: number): string => {
    const one = design === 'belt' ? term('beltTransect') : term('distanceTransect');
    const several = design === 'belt' ? terms('beltTransect') : terms('distanceTransect');
    return `${SMALL[n] ?? formatCount(n)} more ${n === 1 ? one : several}`;
  };
  return {
    sentence: sentenceOf(),
    rule: `Decide by the ${term('cv')} alone, and by a goal that was set before: who stops when the number looks right makes it wrong. Stopping at the first ${term('cv')} below the goal leaves the ${term('confidenceInterval')} a little narrow.`,
    head: ['More dives', `expected ${term('cv')}`],
    rows: [
      ['none', cvText(current_cv)],
      ...more.map(({ transects, cv }) => [formatCount(transects), cvText(cv)]),
    ],
  };

  function sentenceOf(): string {
    const now = `The ${term('cv')} is ${cvText(current_cv)} now`;
    if (goal === null) return `${now}.`;
    if (enough === 0) return `${now}: ${cvText(goal)} is reached.`;
    if (enough === null)
      return `${now}; ${formatCount(200)} more would not bring it to ${cvText(goal)}.`;
    const verb = enough === 1 ? 'is' : 'are';
    return `${now}; ${many(enough)} ${verb} expected to bring it to ${cvText(goal)}.`;
  }
}
