/** What a station says while there is no estimate: it is being made, it failed, or the survey has errors. */

import { counted, label } from '../../../shared/glossary.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed } from '../../../shared/words.ts';
import { refusals } from '../../present/not-estimable.ts';
import { stepWords } from '../../present/steps.ts';
import { Caution, Sentence } from '../shell/ui.tsx';
import { useApp } from '../state/app-context.tsx';

/** What there is none of, what cannot be estimated, and whether the tables with errors are named. */
const WORDS = {
  detection: { none: 'estimate', unknown: label('detectionProbability'), tables: true },
  density: { none: 'estimate', unknown: label('density'), tables: true },
  lake: { none: 'number', unknown: 'How many there are', tables: false },
} as const;

/** Inside of a station. `subject`: what there is no estimate of. */
export function NoEstimate({ subject }: { subject: keyof typeof WORDS }) {
  const { state, actions } = useApp();
  const words = WORDS[subject];
  const { judged, run } = state;
  if (run.state === 'working') return <Sentence>{stepWords(run.step)} …</Sentence>;
  if (run.state === 'failed')
    return (
      <>
        <Sentence>There is no {words.none}: the run stopped.</Sentence>
        <Caution>{run.message}</Caution>
      </>
    );
  const refused = refusals(judged?.findings ?? []);
  if (refused.length > 0)
    return (
      <>
        <Sentence>{words.unknown} cannot be estimated from this survey.</Sentence>
        {refused.map((reason) => (
          <Caution key={reason}>{reason}</Caution>
        ))}
      </>
    );
  const errors = (judged?.findings ?? []).filter((f) => f.severity === 'error');
  const tables = [...new Set(errors.map((f) => f.table))];
  return (
    <>
      <Sentence>
        There is no {words.none} yet
        {errors.length > 0 && (
          <>
            : <b>{counted(errors.length, formatCount(errors.length), 'error')}</b>
            {words.tables && ` in ${listed(tables, 'and')}`} must be fixed first
          </>
        )}
        .
      </Sentence>
      <p>
        <button type="button" className="link" onClick={() => actions.go('survey')}>
          Go to the Survey station
        </button>
      </p>
    </>
  );
}
