/** Clusters in the searched strips: how many were detected, and how many are estimated to be present. */

import { labels, term } from '../../shared/glossary.ts';
import { formatCount, formatDigits } from '../../shared/units.ts';
import type { DetectionInput } from './detection.ts';

/** Clusters in the searched strips: detected in either role, and what is estimated to have been missed. */
export interface ClustersPresent {
  /** detected and missed together */
  present: number;
  title: string;
  parts: { kind: 'primary' | 'secondary' | 'missed'; name: string; value: number; text: string }[];
  total: { name: string; text: string };
  columns: { part: string; number: string };
  described: string;
  /** where nobody searched behind the primary observer; null elsewhere */
  note: string | null;
}

/**
 * Σn / p̄ over the survey, p̄ the mean detection probability: the design-based density times the searched area. Null when
 * nothing was detected.
 */
export function clustersPresent({ estimate, survey }: DetectionInput): ClustersPresent | null {
  const { detection } = estimate;
  const detected = survey.detections.length;
  if (detection === null || detected === 0) return null;
  const secondary = survey.detections.filter((d) => d.role === 'secondary').length;
  const present = detected / detection.mean_p;
  const missed = Math.max(0, present - detected);
  const about = `about ${formatDigits(present, 2)}`;
  const parts: ClustersPresent['parts'] = [
    {
      kind: 'primary',
      name: `detected by the ${term('primaryObserver')}`,
      value: detected - secondary,
      text: formatCount(detected - secondary),
    },
    {
      kind: 'secondary',
      name: `added by the ${term('secondaryObserver')}`,
      value: secondary,
      text: formatCount(secondary),
    },
    {
      kind: 'missed',
      name: 'missed by both, estimated',
      value: missed,
      text: `about ${formatDigits(missed, 2)}`,
    },
  ];
  return {
    present,
    title: 'Clusters detected, and clusters present',
    parts: parts.filter((p) => p.value > 0),
    total: { name: 'present in all, estimated', text: about },
    columns: { part: labels('cluster'), number: 'Number' },
    described: `Of ${about} clusters in the searched strips ${formatCount(detected)} were detected: ${formatCount(detected - secondary)} by the ${term('primaryObserver')}, ${formatCount(secondary)} more by the ${term('secondaryObserver')}.`,
    note:
      detection.fixed === null
        ? null
        : `Where nobody searched behind the ${term('primaryObserver')}, what they missed on the line is not in this.`,
  };
}
