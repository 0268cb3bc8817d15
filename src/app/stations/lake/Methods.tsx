/** The methods paragraph, folded away. */

import { lazy, Suspense, useState } from 'react';
import type { UnitSystem } from '../../../../shared/units.ts';
import { HEADINGS } from '../../../present/headings.ts';
import type { MethodsResult } from '../../../present/methods-paragraph.ts';

const MethodsText = lazy(() =>
  import('./MethodsText.tsx').then((m) => ({ default: m.MethodsText })),
);

export function Methods({ result, units }: { result: MethodsResult; units: UnitSystem }) {
  const [asked, setAsked] = useState(false);
  return (
    <details
      className="methods"
      onToggle={({ currentTarget }) => currentTarget.open && setAsked(true)}
    >
      <summary>{HEADINGS.methods}</summary>
      {asked && (
        <Suspense fallback={null}>
          <MethodsText result={result} units={units} />
        </Suspense>
      )}
    </details>
  );
}
