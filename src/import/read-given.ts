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
import type { TableName } from '../../shared/tables.ts';
import { readAnswers } from './answers.ts';
import { ownFile } from './own-format.ts';
import { type SourceFile, sourcesOf } from './record.ts';

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
  for (const file of files) {
    if (file.name === IMPORT_FILE) takeAnswers(given, file);
    else if (!takeOwn(given, file)) leaveOut(given, file);
  }
  return given;
}

function takeAnswers(given: Given, file: GivenFile): void {
  const { answers, findings } = readAnswers(file);
  given.findings = [...given.findings, ...findings];
  for (const [id, answer] of answers) given.answers.set(id, answer);
  given.recognised.push({ name: file.name, as: 'answers of an earlier import' });
}

function takeOwn(given: Given, file: GivenFile): boolean {
  const own = ownFile(file);
  if (own === null) return false;
  given.kept.set(file.name, file.bytes);
  if (own.kind === 'sheet' && isFieldTable(own.table.name))
    given.ownTables[own.table.name] = own.rows;
  if (own.kind === 'map') given.ownLayers.push(own.layer);
  given.recognised.push({ name: file.name, as: 'a file of a survey, kept as it is' });
  return true;
}

/** One of the three that every survey has. */
function isFieldTable(name: TableName): name is keyof ImportedTables {
  return name === 'transects' || name === 'habitat' || name === 'detections';
}

function leaveOut(given: Given, { name }: GivenFile): void {
  given.recognised.push({ name, as: 'not recognised, left out' });
  given.findings.push(
    noticeAt(
      { table: name },
      'file-left-out',
      'no sheet, map or file of a survey that is known here; left out',
    ),
  );
}
