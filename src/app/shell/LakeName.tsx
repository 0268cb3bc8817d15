/** Above every station: which lake, and how many changes are kept, with the way to their list. */

import { useId, useState } from 'react';
import { useApp } from '../state/app-context.tsx';
import { ChangeList } from './ChangeList.tsx';

/** Heading of the list at the foot of the Survey station. */
export const CHANGES_AT_SURVEY = 'changes-title';

export function LakeName() {
  const { state } = useApp();
  const id = useId();
  const [shown, setShown] = useState(false);
  const edits = state.work?.edits.length ?? 0;
  const any = edits > 0 || state.undone.length > 0;
  // the Survey station has the list at its foot
  const there = state.station === 'survey';
  const press = () => {
    if (!there) {
      setShown(!shown);
      return;
    }
    const list = document.getElementById(CHANGES_AT_SURVEY);
    list?.scrollIntoView({ block: 'start' });
    list?.focus({ preventScroll: true });
  };
  return (
    <>
      <div className="lake-name">
        <span>{state.judged?.analysis.lake ?? state.work?.name}</span>
        {any && (
          <button
            type="button"
            className="link"
            aria-expanded={there ? undefined : shown}
            onClick={press}
          >
            {edits === 1 ? '1 change kept' : `${edits} changes kept`}
          </button>
        )}
      </div>
      {any && shown && !there && (
        <div className="changes-above">
          <ChangeList id={id} />
        </div>
      )}
    </>
  );
}
