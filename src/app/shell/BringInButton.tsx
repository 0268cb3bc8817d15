/** Chooses files of others, and goes to the place where they are brought in; what is there already is shown. */

import { type ReactNode, useRef } from 'react';
import { useApp } from '../state/app-context.tsx';
import { bringIn, useBringIn } from '../state/bring-in.ts';

export function BringInButton({ className, children }: { className: string; children: ReactNode }) {
  const { state } = useApp();
  const { files, shown } = useBringIn();
  const field = useRef<HTMLInputElement>(null);
  const press = () => {
    if (files.length > 0 && !shown) bringIn.show();
    else field.current?.click();
  };
  return (
    <>
      <button type="button" className={className} onClick={press}>
        {children}
      </button>
      <input
        ref={field}
        type="file"
        hidden
        multiple
        aria-label="Files to bring in"
        onChange={({ currentTarget }) => {
          const chosen = [...(currentTarget.files ?? [])];
          currentTarget.value = ''; // so that the same files can be chosen again
          if (chosen.length > 0) void bringIn.add(chosen, state.work);
        }}
      />
    </>
  );
}
