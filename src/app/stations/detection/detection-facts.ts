/** What the Detection station says: how much of what was there was found, and what cannot be told, in words. */

import type { Estimate, Warning } from '../../../../shared/estimate.ts';
import type { Finding } from '../../../../shared/findings.ts';
import type { Survey } from '../../../../shared/survey.ts';

const NUMBERS = [
  'none',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
];

/** 0.716 → `seven`; near the ends in words that do not promise all or nothing. */
export function ofTen(share: number): string {
  if (share >= 0.95) return 'more than nine';
  if (share < 0.05) return 'fewer than one';
  return NUMBERS[Math.round(share * 10)]!;
}

export interface Counted {
  /** clusters found by the diver who searched first, and by the one who followed */
  first: number;
  second: number;
  /** estimated to have been in the strips: found divided by the share found */
  there: number;
  missed: number;
}

/**
 * Clusters in the searched strips: Σn / p̄, what plain effort gives (method 8: the design-based density times the area
 * searched). Null when nothing was found.
 */
export function countedAgainstThere(
  survey: Survey,
  detection: Pick<NonNullable<Estimate['detection']>, 'mean_p'> | null,
): Counted | null {
  if (detection === null || survey.detections.length === 0) return null;
  const second = survey.detections.filter((d) => d.role === 'secondary').length;
  const found = survey.detections.length;
  const there = found / detection.mean_p;
  return { first: found - second, second, there, missed: Math.max(0, there - found) };
}

/** Codes of notices that limit what can be said about divers. */
const LIMITING = new Set([
  'roles-never-swapped',
  'single-pass-only',
  'divers-joined',
  'nothing-missed',
  'shape-on-boundary',
]);
/** Codes of errors by which the fit itself refused. */
const REFUSING = new Set(['density-not-identified', 'not-converged']);

/** What about divers cannot be estimated, and why, as the run told it; each sentence once. */
export function limitsOfDetection(warnings: readonly Warning[]): string[] {
  return [...new Set(warnings.filter((w) => LIMITING.has(w.code)).map((w) => sentence(w.message)))];
}

/** Why there is no estimate at all, when that is for the divers' counts; else empty. */
export function refusals(findings: readonly Finding[]): string[] {
  return findings
    .filter((f) => f.severity === 'error' && REFUSING.has(f.code))
    .map((f) => sentence(f.message));
}

/** A message as a sentence of its own, without the dotted key of analysis.json before it. */
function sentence(message: string): string {
  const text = message.replace(/^[a-z_]+(?:\.[a-z_]+)*: /, '');
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}
