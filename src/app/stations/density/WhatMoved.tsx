/** What the last change did to the lake's number: before and now, and by how much. */

import { Moved } from '../../shell/Moved.tsx';
import { useApp } from '../../state/app-context.tsx';
import { movedWords } from './moved.ts';

export function WhatMoved() {
  const { before, result, run } = useApp().state;
  if (before === null || result === null || run.state === 'working') return null;
  const words = movedWords(before, result.estimate.abundance?.mussels ?? null);
  return (
    <div className="what-moved">
      <Moved />
      {words !== '' && <p className="small quiet">{words}</p>}
    </div>
  );
}
