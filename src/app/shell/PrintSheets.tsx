/** Sheets for the dives, folded away. */

import { lazy } from 'react';
import { Unfolded } from './Unfolded.tsx';

const SheetsForm = lazy(() => import('./SheetsForm.tsx').then((m) => ({ default: m.SheetsForm })));

export function PrintSheets() {
  return (
    <Unfolded
      className="print-sheets no-print"
      summary={<h2 className="inline-title">Sheets for the dives</h2>}
    >
      <SheetsForm />
    </Unfolded>
  );
}
