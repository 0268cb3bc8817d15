/** After a change: what moved, and by how much. */

import { nowAndBefore } from '../../present/before.ts';
import { useApp } from '../state/app-context.tsx';

export function Moved() {
  const { state } = useApp();
  const { before, result } = state;
  if (before === null || result === null) return null;
  return (
    <div className="moved" role="status">
      <p className="small quiet">{before.label}</p>
      <p>{nowAndBefore(before, result)}</p>
    </div>
  );
}
