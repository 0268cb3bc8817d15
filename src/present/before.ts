/** The lake's number before a change of the survey or of the analysis: what is kept of it, and both side by side. */

import type { Estimate } from '../../shared/estimate.ts';
import { terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { CheckName, Verdict } from './checks.ts';
import { quantityInShort } from './quantity.ts';

/** The number before the change, and how its model stood; standard error and limits null where there were none. */
export interface Before {
  mussels: number | null;
  se: number | null;
  lower: number | null;
  upper: number | null;
  /** null without a model that was compared by AICc */
  aicc: number | null;
  /** null when the model was not checked */
  checks: readonly { name: CheckName; verdict: Verdict }[] | null;
  /** what the model was fitted to: only of the same data can AICc be compared */
  data: FittedTo;
}

export type FittedTo = Pick<SurveyResult, 'segments' | 'survey'>;

export type Movable = Pick<SurveyResult, 'estimate' | 'models' | 'checks' | 'segments' | 'survey'>;

/** What a result leaves behind, to be held against the next one. */
export function beforeOf({ estimate, checks, segments, survey }: Movable): Before {
  const mussels = estimate.abundance?.mussels ?? null;
  return {
    mussels: mussels?.estimate ?? null,
    se: mussels?.se ?? null,
    lower: mussels?.lower ?? null,
    upper: mussels?.upper ?? null,
    aicc: estimate.model.aicc,
    checks: checks?.checks.map(({ name, verdict }) => ({ name, verdict })) ?? null,
    data: { segments, survey },
  };
}

export type Limits = Pick<Before, 'mussels' | 'lower' | 'upper'>;

/** `Now 184,000 mussels (121,000 to 279,000); before 190,000 mussels (…).` */
export function nowAndBefore(
  before: Limits & Pick<Before, 'se'>,
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
