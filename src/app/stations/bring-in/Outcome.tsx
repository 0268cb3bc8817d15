/** What will come of it: the survey's tables, ten rows of each, its maps, and what the checks say of them. */

import { useMemo } from 'react';
import { label } from '../../../../shared/glossary.ts';
import { IMPORT_FILE } from '../../../../shared/survey-files.ts';
import { ALL_TABLES } from '../../../../shared/tables.ts';
import { formatCount } from '../../../../shared/units.ts';
import type { ImportedView } from '../../import-contract.ts';
import { scanCsv } from '../../storage/csv-text.ts';
import { ImportFindings } from './ImportFindings.tsx';
import { Picture } from './Picture.tsx';

const ROWS = 10;

export function Outcome({ imported }: { imported: ImportedView }) {
  const { files, judged, pictures } = imported;
  const previews = useMemo(() => [...(files ?? [])].flatMap(preview), [files]);
  const others = [...(files ?? [])]
    .map(([name]) => name)
    .filter((name) => name !== IMPORT_FILE && !ALL_TABLES.some(({ file }) => file === name));
  return (
    <section className="outcome" aria-labelledby="outcome-title">
      <h2 id="outcome-title">What will come of it</h2>
      {previews.map((table) => (
        <Picture key={table.caption} picture={table} />
      ))}
      {pictures.map((picture) => (
        <Picture key={picture.caption} picture={picture} />
      ))}
      {others.length > 0 && (
        <p>
          Besides: {others.join(', ')}, and {IMPORT_FILE}, which keeps the answers for the next
          files.
        </p>
      )}
      {judged !== null && judged.findings.length > 0 && (
        <>
          <h3>{judged.ok ? label('notice') : 'To be fixed'}</h3>
          <ImportFindings findings={judged.findings} />
        </>
      )}
    </section>
  );
}

function preview([name, bytes]: [string, Uint8Array]) {
  if (!ALL_TABLES.some(({ file }) => file === name)) return [];
  const [header, ...rows] = scanCsv(new TextDecoder().decode(bytes)).map((cells) =>
    cells.map(({ text }) => text),
  );
  const count = rows.filter((cells) => cells.some((cell) => cell !== '')).length;
  const caption =
    count > ROWS
      ? `${name}: the first ${ROWS} of ${formatCount(count)} rows`
      : `${name}: ${formatCount(count)} ${count === 1 ? 'row' : 'rows'}`;
  return [{ kind: 'table' as const, caption, header: header ?? [], rows: rows.slice(0, ROWS) }];
}
