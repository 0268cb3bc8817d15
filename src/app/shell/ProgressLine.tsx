/** What is being done, how far, and how to stop it; nothing for runs too short to be noticed. */

import { type CSSProperties, useEffect, useState } from 'react';
import { stepWords } from '../../present/steps.ts';
import { useApp } from '../state/app-context.tsx';

/** A run that is over before this leaves no flicker. */
const QUIET_MS = 400;

export function ProgressLine() {
  const { state, actions } = useApp();
  const { run } = state;
  const working = run.state === 'working';
  const [late, setLate] = useState(false);

  useEffect(() => {
    if (!working) {
      setLate(false);
      return;
    }
    const timer = setTimeout(() => setLate(true), QUIET_MS);
    return () => clearTimeout(timer);
  }, [working]);

  const shown = working && late;
  const words = shown ? stepWords(run.step) : '';
  return (
    <>
      <div role="status" className="visually-hidden">
        {shown ? `${words} …` : ''}
      </div>
      {state.stopped && !working && (
        <div className="progress stopped" role="status">
          <span>
            {state.result === null
              ? 'Stopped: there is no estimate.'
              : 'Stopped: what is shown is from before the last change.'}
          </span>
          <button type="button" className="button small" onClick={actions.estimateAgain}>
            Estimate
          </button>
        </div>
      )}
      {shown && (
        <div className="progress" style={{ '--share': run.share } as CSSProperties}>
          <span>
            {words}
            {run.share > 0 && run.share < 1 ? ` ${Math.round(run.share * 100)} %` : ''} …
          </span>
          <button type="button" className="button small" onClick={actions.cancel}>
            Cancel
          </button>
        </div>
      )}
    </>
  );
}
