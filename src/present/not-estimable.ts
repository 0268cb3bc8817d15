/** What of detection cannot be estimated from a survey, and why, as the run noted it. */

import type { Finding } from '../../shared/findings.ts';
import { capital } from '../../shared/glossary.ts';

/** Codes of notices that limit what can be said of observers. */
const LIMITING = new Set([
  'roles-never-swapped',
  'single-pass-only',
  'divers-joined',
  'nothing-missed',
  'shape-on-boundary',
]);
/** Codes of errors by which the fit itself refused. */
const REFUSING = new Set(['density-not-identified', 'not-converged']);

/** What is not estimable although there is an estimate, each sentence once; null when there is nothing of that kind. */
export function limitsOfDetection({
  findings,
}: {
  findings: readonly Finding[];
}): { title: string; sentences: string[] } | null {
  const limiting = findings.filter((f) => LIMITING.has(f.code));
  if (limiting.length === 0) return null;
  return {
    title: 'What is not estimable',
    sentences: [...new Set(limiting.map((f) => sentence(f.message)))],
  };
}

/** Why there is no estimate at all, when that is for the observers' counts; else empty. */
export function refusals(findings: readonly Finding[]): string[] {
  return findings
    .filter((f) => f.severity === 'error' && REFUSING.has(f.code))
    .map((f) => sentence(f.message));
}

function sentence(message: string): string {
  return `${capital(message)}${/[.!?]$/.test(message) ? '' : '.'}`;
}
