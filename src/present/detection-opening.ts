/** The first words on detection: how much of what was there was detected, or why that is not estimable. */

import { capital, term, terms } from '../../shared/glossary.ts';
import { formatCount, formatPercent } from '../../shared/units.ts';
import { sizeSentence } from './cluster-sizes.ts';
import { clustersPresent } from './clusters-present.ts';
import type { DetectionInput } from './detection.ts';

/** A sentence with one part to be set off, and what follows it. */
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
