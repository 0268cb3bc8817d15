/** What a station says while there is no estimate: it is being made, it failed, or the survey has errors. */

import { noEstimate, runStopped, type Subject } from '../../present/no-estimate.ts';
import { stepWords } from '../../present/steps.ts';
import { Caution, Sentence } from '../shell/ui.tsx';
import { useApp } from '../state/app-context.tsx';

/** Inside of a station. `subject`: what there is no estimate of. */
export function NoEstimate({ subject }: { subject: Subject }) {
  const { state, actions } = useApp();
  const { judged, run } = state;
  if (run.state === 'working') return <Sentence>{stepWords(run.step)} …</Sentence>;
  if (run.state === 'failed')
    return (
      <>
        <Sentence>{runStopped(subject)}</Sentence>
        <Caution>{run.message}</Caution>
      </>
    );
  const {
    sentence: [before, strong, after],
    reasons,
  } = noEstimate(subject, judged?.findings ?? []);
  return (
    <>
      <Sentence>
        {before}
        <b>{strong}</b>
        {after}
      </Sentence>
      {reasons.map((reason) => (
        <Caution key={reason}>{reason}</Caution>
      ))}
      {reasons.length === 0 && (
        <p>
          <button type="button" className="link" onClick={() => actions.go('survey')}>
            Go to the Survey station
          </button>
        </p>
      )}
    </>
  );
}
