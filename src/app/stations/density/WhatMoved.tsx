/** What the last change did to the lake's number: before and now, and by how much. */

import { movedSentence } from '../../../present/moved.ts';
import { Moved } from '../../shell/Moved.tsx';
import { useApp } from '../../state/app-context.tsx';

export function WhatMoved() {
  const { before, result, run } = useApp().state;
  if (before === null || result === null || run.state === 'working') return null;
  const sentence = movedSentence(before, result);
  return (
    <div className="what-moved">
      <Moved />
      {sentence !== null && <p className="small quiet">{sentence}</p>}
    </div>
  );
}
