/** What the last change did: the number before and now, how far the data speak for the new model, what the checks say. */

import { movedSentences } from '../../../present/moved.ts';
import { Moved } from '../../shell/Moved.tsx';
import { useApp } from '../../state/app-context.tsx';

export function WhatMoved() {
  const { before, result, run } = useApp().state;
  if (before === null || result === null || run.state === 'working') return null;
  return (
    <>
      <Moved />
      <div className="moved-on">
        {movedSentences(before, result).map((sentence) => (
          <p key={sentence} className="small">
            {sentence}
          </p>
        ))}
      </div>
    </>
  );
}
