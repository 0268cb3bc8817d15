/** A new version of the page waits: how to open it, once what was changed is kept. */

import { useApp } from '../state/app-context.tsx';
import { saveOver } from '../state/autosave.ts';
import { openNewVersion, useNewVersion } from '../state/new-version.ts';

export function NewVersion() {
  const { state } = useApp();
  if (!useNewVersion()) return null;
  const kept = state.unkept === null;
  return (
    <div className="caution standing" role="status">
      <p>
        A new version of this page is ready. This one stays as it is until you leave it.
        {!kept && ' Save the survey first: its last changes are not kept in this browser.'}
      </p>
      <p>
        <button
          type="button"
          className="link"
          disabled={!kept}
          onClick={() => void saveOver().then(() => openNewVersion())}
        >
          Open the new version
        </button>
      </p>
    </div>
  );
}
