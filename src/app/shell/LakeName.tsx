/** Above every station: which lake, and the state of what is on the screen. */

import { useApp } from '../state/app-context.tsx';

export function LakeName() {
  const { state } = useApp();
  const edits = state.work?.edits.length ?? 0;
  return (
    <p className="lake-name">
      <span>{state.judged?.analysis.lake ?? state.work?.name}</span>
      {edits > 0 && <span>{edits === 1 ? '1 change kept' : `${edits} changes kept`}</span>}
    </p>
  );
}
