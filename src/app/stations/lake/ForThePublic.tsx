/** What is saved for the public, folded away. */

import './for-the-public.css';
import { lazy } from 'react';
import { Unfolded } from '../../shell/Unfolded.tsx';

const PublicForm = lazy(() => import('./PublicForm.tsx').then((m) => ({ default: m.PublicForm })));

export function ForThePublic({ lake }: { lake: string }) {
  return (
    <Unfolded className="for-the-public no-print" summary="A map for the public">
      <PublicForm lake={lake} />
    </Unfolded>
  );
}
