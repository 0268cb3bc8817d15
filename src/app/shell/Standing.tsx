/** How the open survey stands: edited in another tab, not kept by this browser, or changed on disk; each with what can be done. */

import type { ReactNode } from 'react';
import type { ServedChange } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';

export function Standing() {
  const { state, actions } = useApp();
  if (state.work === null) return null;
  return (
    <>
      {state.editor === 'elsewhere' && (
        <Notice text="This survey is being edited in another tab or window; what is kept there shows here.">
          <button type="button" className="link" onClick={actions.editHere}>
            Edit it here instead
          </button>
        </Notice>
      )}
      {state.unkept !== null && (
        <Notice text={state.unkept} urgent>
          <button type="button" className="link" onClick={actions.saveZip}>
            Save the survey as a zip
          </button>
        </Notice>
      )}
      {state.served !== null && (
        <Notice text={servedWords(state.served)}>
          <button type="button" className="link" onClick={actions.openServed}>
            {state.served.when === 'now' ? 'Open it as it is now' : 'Carry them over'}
          </button>{' '}
          <button type="button" className="link" onClick={actions.leaveServed}>
            {state.served.when === 'now' ? 'Go on with this one' : 'Leave them'}
          </button>
        </Notice>
      )}
    </>
  );
}

function Notice({
  text,
  urgent = false,
  children,
}: {
  text: string;
  urgent?: boolean;
  children: ReactNode;
}) {
  return (
    <div className="caution standing" role={urgent ? 'alert' : 'status'}>
      <p>{text}</p>
      <p>{children}</p>
    </div>
  );
}

function servedWords({ when, corrections }: ServedChange): string {
  const them = corrections === 1 ? '1 correction' : `${corrections} corrections`;
  if (when === 'before')
    return `The folder has changed on disk since ${them} ${corrections === 1 ? 'was' : 'were'} made to it here. Shown is the folder as it is now, without them.`;
  return corrections === 0
    ? 'The folder of this survey has changed on disk since it was opened.'
    : `The folder of this survey has changed on disk since it was opened. ${them} made here will be carried over where the cells still hold what was corrected.`;
}
