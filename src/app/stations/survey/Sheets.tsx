/** The three tables as they stand in the files; errors and notices are marked in their cells, any cell can be corrected. */

import { useEffect, useMemo, useState } from 'react';
import type { Finding } from '../../../../shared/findings.ts';
import { formatCount } from '../../../../shared/units.ts';
import type { JudgedView } from '../../contract.ts';
import { Switch } from '../../shell/ui.tsx';
import { type CellPlace, cellKey } from './columns.ts';
import { RowEditor } from './RowEditor.tsx';
import { SheetGrid } from './SheetGrid.tsx';

export function Sheets({
  judged,
  place,
  editing,
  onPlace,
}: {
  judged: JudgedView;
  place: CellPlace | null;
  editing: boolean;
  onPlace: (place: CellPlace | null, editing: boolean) => void;
}) {
  const { sheets, findings } = judged;
  const [file, setFile] = useState(sheets[0]?.file ?? '');
  const [adding, setAdding] = useState(false);
  const marked = useMemo(() => findingsByCell(findings), [findings]);

  useEffect(() => {
    if (place !== null) setFile(place.file);
  }, [place]);

  const sheet = sheets.find((s) => s.file === file) ?? sheets[0];
  if (sheet === undefined)
    return (
      <p className="quiet">
        There is no table to show: transects.csv, habitat.csv and detections.csv are expected.
      </p>
    );
  return (
    <section aria-labelledby="sheets-title" className="sheets no-print">
      <h2 id="sheets-title">The tables</h2>
      <Switch
        label="Table"
        value={sheet.file}
        options={sheets.map((s) => ({
          value: s.file,
          text: `${s.file.replace('.csv', '')} ${formatCount(s.rows.length)}`,
        }))}
        onChange={(next) => {
          setFile(next);
          setAdding(false);
          onPlace(null, false);
        }}
      />
      <SheetGrid
        key={sheet.file}
        sheet={sheet}
        marked={marked}
        place={place?.file === sheet.file ? place : null}
        editing={editing}
        onPlace={onPlace}
      />
      {adding ? (
        <RowEditor
          key={sheet.file}
          sheet={sheet}
          judged={judged}
          onDone={(row) => {
            setAdding(false);
            if (row !== null)
              onPlace({ file: sheet.file, row, column: sheet.header[0] ?? '' }, false);
          }}
        />
      ) : (
        sheet.header.length > 0 && (
          <p className="no-print">
            <button type="button" className="button small" onClick={() => setAdding(true)}>
              Add a row
            </button>
          </p>
        )
      )}
      <p className="small quiet no-print">
        Arrow keys move, Enter opens a cell to be corrected. Row numbers are those of a spreadsheet.
      </p>
    </section>
  );
}

/** `transects.csv|7|length_m` → errors and notices of that cell; a finding without a column belongs to the row's number. */
export function findingsByCell(findings: readonly Finding[]): Map<string, Finding[]> {
  const marked = new Map<string, Finding[]>();
  for (const finding of findings) {
    if (finding.row === null) continue;
    for (const column of (finding.column ?? '').split(', ')) {
      const key = cellKey(finding.table, finding.row, column);
      marked.set(key, [...(marked.get(key) ?? []), finding]);
    }
  }
  return marked;
}
