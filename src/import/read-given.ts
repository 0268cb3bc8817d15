/** Files as somebody has them → what the steps of the import work on. Done once; every set of answers begins from here. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type {
  Answer,
  GivenFile,
  ImportedTables,
  RawLayer,
  RawRaster,
  RawTable,
} from '../../shared/importing.ts';
import { IMPORT_FILE } from '../../shared/survey-files.ts';
import { formatCount } from '../../shared/units.ts';
import { readAnswers } from './answers.ts';
import { readMapFiles, unpack } from './maps/index.ts';
import { ownFile } from './own-format.ts';
import { type SourceFile, sourcesOf } from './record.ts';
import { readTableFile } from './tables/index.ts';

/** What was given, read. */
export interface Given {
  sources: SourceFile[];
  /** each file that was recognised, and as what, for people */
  recognised: { name: string; as: string }[];
  /** files that are in our format already, byte for byte */
  kept: Map<string, Uint8Array>;
  /** the rows of those of our tables that are kept */
  ownTables: Partial<ImportedTables>;
  /** maps that are kept */
  ownLayers: RawLayer[];
  tables: RawTable[];
  layers: RawLayer[];
  rasters: RawRaster[];
  /** of import.json among the files */
  answers: Map<string, Answer>;
  findings: Finding[];
}

/** As what the files that belong to a shapefile are told. */
const PART = 'a part of a map';
const TABLE_NAMES = /\.(csv|tsv|tab|txt|asc|dat|xyz|xlsx|xlsm|xls|ods)$/i;

/** Never throws on bad files: the findings say what is wrong with them. */
export async function readGiven(files: readonly GivenFile[]): Promise<Given> {
  const given: Given = {
    sources: sourcesOf(files.filter(({ name }) => name !== IMPORT_FILE)),
    recognised: [],
    kept: new Map(),
    ownTables: {},
    ownLayers: [],
    tables: [],
    layers: [],
    rasters: [],
    answers: new Map(),
    findings: [],
  };
  const opened = unpack(files);
  const others = opened.files.filter((file) => !takeOwn(given, file));
  const maps = await readMapFiles(others);
  given.layers = maps.layers;
  given.rasters = maps.rasters;
  for (const { file, layer, features } of maps.layers)
    tell(given, file, `${layer === null ? 'a map' : `layer ${layer}`}: ${shapes(features.length)}`);
  for (const { file, width, height } of maps.rasters)
    tell(given, file, `a raster of ${formatCount(width)} × ${formatCount(height)} cells`);
  const used = new Set(maps.used);
  const rest = others.filter(({ name }) => !used.has(name));
  const told = await readTables(given, rest);
  given.tables = inOneOrder(given.tables);
  given.findings = [...given.findings, ...opened.findings, ...maps.findings, ...told];
  for (const { name } of opened.files)
    if (used.has(name) && !given.recognised.some((line) => line.name === name))
      tell(given, name, PART);
  return given;
}

async function readTables(given: Given, files: readonly GivenFile[]): Promise<Finding[]> {
  const findings: Finding[] = [];
  for (const file of files) {
    if (!TABLE_NAMES.test(file.name)) {
      tell(given, file.name, 'not recognised, left out');
      findings.push(leftOut(file.name));
      continue;
    }
    const read = await readTableFile(file);
    for (const finding of read.findings) findings.push(finding);
    for (const table of read.tables) {
      given.tables.push(table);
      const rows = `a table of ${formatCount(table.rows.length)} rows`;
      tell(given, file.name, table.sheet === null ? rows : `sheet ${table.sheet}: ${rows}`);
    }
    if (read.tables.length === 0) tell(given, file.name, 'a table that cannot be read');
  }
  return findings;
}

/** By what stands in their first rows: steps number their questions by the order, in which the names of the files have no part. */
function inOneOrder(tables: readonly RawTable[]): RawTable[] {
  const first = ({ rows }: RawTable) => JSON.stringify(rows[0]?.cells.map(({ text }) => text));
  return tables
    .map((table) => ({ table, key: first(table) ?? '' }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ table }) => table);
}

function takeOwn(given: Given, file: GivenFile): boolean {
  const name = file.name.slice(file.name.lastIndexOf('/') + 1);
  const own = given.kept.has(name) ? null : ownFile({ ...file, name });
  if (own === null) return false;
  if (name === IMPORT_FILE) {
    const { answers, findings } = readAnswers(file);
    given.findings = [...given.findings, ...findings];
    given.answers = answers;
    tell(given, file.name, 'answers of an earlier import');
    return true;
  }
  given.kept.set(name, file.bytes);
  if (own.kind === 'sheet') given.ownTables[own.table] = own.rows;
  if (own.kind === 'map') given.ownLayers.push(own.layer);
  tell(given, file.name, 'a file of a survey, kept as it is');
  return true;
}

function shapes(count: number): string {
  return count === 1 ? '1 shape' : `${formatCount(count)} shapes`;
}

function tell(given: Given, name: string, as: string): void {
  given.recognised.push({ name, as });
}

function leftOut(name: string): Finding {
  return noticeAt(
    { table: name },
    'file-left-out',
    'no sheet, map or file of a survey that is known here; left out',
  );
}
