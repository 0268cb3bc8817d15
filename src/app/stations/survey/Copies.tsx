/** Another copy of this survey is chosen, to be held against it. */

import { lazy, Suspense, useRef, useState } from 'react';
import type { JudgedView } from '../../contract.ts';
import { FileField } from '../../shell/FileField.tsx';
import { keepOtherCopy, type OtherCopy, otherCopyOf } from '../../state/other-copy.ts';
import { gatherSurvey } from '../../storage/survey-files.ts';

const Compared = lazy(() => import('./Compared.tsx').then((m) => ({ default: m.Compared })));

/** Loose files have no name in common. */
const UNNAMED = 'the other copy';

export function Copies({ judged }: { judged: JudgedView }) {
  const [other, setOther] = useState<OtherCopy | null>(() => otherCopyOf(judged.name));
  const [trouble, setTrouble] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const put = (copy: OtherCopy | null): void => {
    keepOtherCopy(judged.name, copy);
    setOther(copy);
    setTrouble(null);
  };
  const choose = async (files: File[]): Promise<void> => {
    try {
      const { name, files: found, single } = await gatherSurvey(files);
      put({ name: single ? UNNAMED : name, files: found, left: new Set() });
    } catch (error) {
      setTrouble((error as Error).message);
    }
  };
  return (
    <section className="copies no-print" aria-label="Another copy">
      <p>
        <button
          type="button"
          className="button small"
          onClick={() => (other === null ? field.current?.click() : put(null))}
        >
          {other === null ? 'Compare with another copy …' : `Done with ${other.name}`}
        </button>
        <FileField
          field={field}
          label="Another copy of this survey: its zip, or its tables"
          onChosen={(files) => void choose(files)}
        />
      </p>
      {trouble !== null && (
        <p className="caution" role="alert">
          {trouble}
        </p>
      )}
      {other !== null && (
        <Suspense fallback={<p className="quiet">Comparing …</p>}>
          <Compared judged={judged} other={other} onLeft={put} />
        </Suspense>
      )}
    </section>
  );
}
