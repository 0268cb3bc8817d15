/** Why there is no estimate yet of a survey that was read: errors, or data from which nothing can be estimated. */

import type { Finding } from '../../shared/findings.ts';
import { counted, label, terms } from '../../shared/glossary.ts';
import { formatCount } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { refusals } from './not-estimable.ts';

/** What there is no estimate of. */
export type Subject = 'detection' | 'density' | 'lake';

export interface NoEstimate {
  sentence: [before: string, strong: string, after: string];
  /** why the data give none; empty where it is for errors, or not yet known */
  reasons: string[];
}

export function noEstimate(subject: Subject, findings: readonly Finding[]): NoEstimate {
  const none = subject === 'lake' ? 'number' : 'estimate';
  const reasons = refusals(findings);
  if (reasons.length > 0)
    return {
      sentence: [`${subjectOf(subject)} is `, 'not estimable', ' from this survey.'],
      reasons,
    };
  const errors = findings.filter((f) => f.severity === 'error');
  if (errors.length === 0) return { sentence: [`There is no ${none} yet.`, '', ''], reasons: [] };
  const tables = [...new Set(errors.map((f) => f.table))];
  const where = subject === 'lake' ? '' : ` in ${listed(tables, 'and')}`;
  return {
    sentence: [
      `There is no ${none} yet: `,
      counted(errors.length, errors.length === 1 ? 'one' : formatCount(errors.length), 'error'),
      `${where} must be fixed first.`,
    ],
    reasons: [],
  };
}

/** The run itself broke off. */
export function runStopped(subject: Subject): string {
  return `There is no ${subject === 'lake' ? 'number' : 'estimate'}: the run stopped.`;
}

function subjectOf(subject: Subject): string {
  if (subject === 'detection') return label('detectionProbability');
  return subject === 'density' ? label('density') : `The number of ${terms('mussel')}`;
}
