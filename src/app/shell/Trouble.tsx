/** What could not be opened, kept or computed, in a sentence, until it is read. */

import { useApp } from '../state/app-context.tsx';

export function Trouble() {
  const { state, actions } = useApp();
  if (state.run.state === 'failed')
    return (
      <div className="caution trouble" role="alert">
        <p>
          The estimate broke off: an error of the program, not of your survey. Your survey and its
          changes are kept.
        </p>
        <p className="small quiet">{state.run.message}</p>
      </div>
    );
  if (state.trouble === null) return null;
  return (
    <div className="caution trouble" role="alert">
      <p>{state.trouble}</p>
      <button type="button" className="link" onClick={actions.dismissTrouble}>
        Understood
      </button>
    </div>
  );
}
