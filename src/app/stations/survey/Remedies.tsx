/** What a press does about an error in analysis.json; loaded where there is one. */

import type { Finding } from '../../../../shared/findings.ts';
import { useApp } from '../../state/app-context.tsx';
import { remediesFor } from '../../state/remedies.ts';

/** It stands among the changes and can be taken back. */
export function Remedies({ finding }: { finding: Finding }) {
  const { state, actions } = useApp();
  const remedies = state.work === null ? [] : remediesFor(finding, state.work);
  if (remedies.length === 0) return null;
  return (
    <p className="remedies no-print">
      {remedies.map(({ words, edit }) => (
        <button
          key={words}
          type="button"
          className="button small"
          onClick={() => actions.edit(edit)}
        >
          {words}
        </button>
      ))}
    </p>
  );
}
