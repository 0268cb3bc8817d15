/** The tables of the survey: kept where they came in our format, else made from sheets after their columns were matched. */

import type { Finding } from '../../shared/findings.ts';
import { terms } from '../../shared/glossary.ts';
import type { Ask, ImportedTables, RawLayer } from '../../shared/importing.ts';
import type { LngLat } from '../../shared/survey.ts';
import { ALL_TABLES, DETECTIONS, TABLES, type TableName } from '../../shared/tables.ts';
import type { Given } from './read-given.ts';
import { sheetTables } from './tables/index.ts';
import { tableCsv } from './write-tables.ts';

export interface Sheets {
  tables: ImportedTables;
  points: RawLayer[];
  findings: Finding[];
  remarks: string[];
}

/** Rows of sheets of others stand before rows of a table of ours that came beside them. */
export function sheetsOf(given: Given, ask: Ask): Sheets {
  const made = sheetTables(given.tables, ask);
  const { ownTables } = given;
  const own = (name: keyof ImportedTables) =>
    made.tables[name].length > 0 ? made.tables[name] : (ownTables[name] ?? []);
  const remarks = [...made.remarks];
  for (const { name, file } of ALL_TABLES)
    if (isSheet(name) && made.tables[name].length > 0 && ownTables[name] !== undefined)
      remarks.push(`${file} that was given in our format is replaced by the sheets beside it.`);
  return {
    ...made,
    remarks,
    findings: made.findings.filter((finding) => !mayComeByGps(finding)),
    tables: {
      transects: own('transects'),
      habitat: own('habitat'),
      detections: own('detections'),
      planted_shells: own('planted_shells'),
    },
  };
}

/** Places that the sheets lack may come with waypoints, now or later; the check of the survey tells where they are still missing. */
function mayComeByGps({ code, column }: Finding): boolean {
  return code === 'no-column' && (column === 'start_lat' || column === 'start_lon');
}

/** Where the dives were, to tell where a map must lie. */
export function knownPlaces({ transects }: ImportedTables): LngLat[] {
  return transects.flatMap(({ cells }) =>
    (['start', 'end'] as const).flatMap((end): LngLat[] => {
      const [lat, lon] = [cells[`${end}_lat`], cells[`${end}_lon`]];
      if (!lat || !lon) return [];
      const place: LngLat = [Number(lon), Number(lat)];
      const isPlace = Math.abs(place[0]) <= 180 && Math.abs(place[1]) <= 90;
      return isPlace ? [place] : [];
    }),
  );
}

/** The files of tables that were made or changed; those that came in our format stay as they came. */
export function tableFiles(
  given: Given,
  tables: ImportedTables,
  ask: Ask,
): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  const encoder = new TextEncoder();
  for (const table of ALL_TABLES) {
    const { name, file } = table;
    if (!isSheet(name) || (given.kept.has(file) && tables[name] === given.ownTables[name]))
      continue;
    if (tables[name].length === 0) {
      const searched = name === 'detections' && tables.transects.length > 0;
      if (!searched || !askNothing(given, ask)) continue;
    }
    files.set(file, encoder.encode(tableCsv(table, tables[name])));
  }
  return files;
}

/** The tables with their headers alone, for maps that came without sheets. */
export function emptyTables(): Map<string, Uint8Array> {
  const encoder = new TextEncoder();
  return new Map(TABLES.map((table) => [table.file, encoder.encode(tableCsv(table, []))]));
}

/** A survey that detected nothing and a file that was forgotten look alike. */
function askNothing({ sources }: Given, ask: Ask): boolean {
  const answer = ask({
    kind: 'choice',
    id: 'detections.none',
    about: sources.map(({ name }) => name).join(', '),
    ask: `No table of ${terms('detection')} is among these files. Was nothing detected?`,
    evidence: [`No table with distances and numbers of ${terms('mussel')} was recognised.`],
    certain: false,
    pictures: [],
    options: [
      { value: 'nothing-detected', label: 'nothing was detected on any transect' },
      { value: 'missing', label: `the table is missing: ${DETECTIONS.file} is left out for now` },
    ],
    proposal: null,
  });
  return answer === 'nothing-detected';
}

function isSheet(name: TableName): name is keyof ImportedTables {
  return name !== 'history';
}
