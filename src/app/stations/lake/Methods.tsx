/** The methods paragraph, folded away. */

import { lazy } from 'react';
import type { UnitSystem } from '../../../../shared/units.ts';
import { HEADINGS } from '../../../present/headings.ts';
import type { MethodsResult } from '../../../present/methods-paragraph.ts';
import { Unfolded } from '../../shell/Unfolded.tsx';

const MethodsText = lazy(() =>
  import('./MethodsText.tsx').then((m) => ({ default: m.MethodsText })),
);

export function Methods({ result, units }: { result: MethodsResult; units: UnitSystem }) {
  return (
    <Unfolded className="methods" summary={HEADINGS.methods}>
      <MethodsText result={result} units={units} />
    </Unfolded>
  );
}
