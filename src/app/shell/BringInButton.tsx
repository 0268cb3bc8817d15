/** Chooses files of others, and goes to the place where they are brought in; what is there already is shown. */

import { type ReactNode, useRef } from 'react';
import { useApp } from '../state/app-context.tsx';
import { bringIn, useBringIn } from '../state/bring-in.ts';
import { FileField } from './FileField.tsx';

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
      <FileField
        field={field}
        label="Files to bring in"
        onChosen={(files) => void bringIn.add(files, state.work)}
      />
    </>
  );
}
