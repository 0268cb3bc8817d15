/** The analysis' choices, group by group; a change is an edit of analysis.json, and the estimate follows. */

import { memo } from 'react';
import type { Analysis } from '../../../../shared/analysis.ts';
import { valueAt } from '../../../../shared/choice-values.ts';
import { CHOICE_GROUPS, defaultOf, idleBecause } from '../../../present/choices.ts';
import { ChoiceControl } from './ChoiceControl.tsx';

export const Choices = memo(function Choices({
  analysis,
  hasDistance,
  onChoice,
}: {
  analysis: Analysis;
  hasDistance: boolean;
  /** `after` as in an edit of analysis.json; blank = back to the default */
  onChoice(path: string, after: string): void;
}) {
  return (
    <section className="choices no-print" aria-labelledby="choices-title">
      <h2 id="choices-title">Choices of this analysis</h2>
      <p className="small quiet">
        Each has a default that suits most surveys. A change is kept with the survey, can be undone,
        and the estimate follows at once.
      </p>
      {CHOICE_GROUPS.map(({ title, paths }, i) => {
        const changed = paths.filter((p) => valueAt(analysis, p) !== defaultOf(p)).length;
        return (
          <details key={title} open={i === 0}>
            <summary>
              {title}
              {changed > 0 && <span className="choice-count"> ({changed} changed)</span>}
            </summary>
            {paths.map((path) => (
              <ChoiceControl
                key={path}
                path={path}
                value={valueAt(analysis, path)}
                idle={idleBecause(path, analysis, hasDistance)}
                onChange={(after) => onChoice(path, after)}
              />
            ))}
          </details>
        );
      })}
    </section>
  );
});
