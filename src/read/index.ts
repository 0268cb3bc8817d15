/** A survey folder → its records, its lake and its choices, with everything that was wrong or remarkable. */

import { errorAt, type Finding, inOrder } from '../../shared/findings.ts';
import { HISTORY_FILE } from '../../shared/history.ts';
import type {
  DetectionCells,
  HabitatCells,
  PlantedCells,
  Reading,
  TransectCells,
} from '../../shared/reading.ts';
import { IMPORT_FILE, NO_DIVE_FILE } from '../../shared/survey-files.ts';
import { DETECTIONS, HABITAT, PLANTED_SHELLS, TABLES, TRANSECTS } from '../../shared/tables.ts';
import { VARIANTS_FILE } from '../../shared/variants.ts';
import { visible } from '../../shared/words.ts';
import { ANALYSIS_FILE, readAnalysis } from './analysis.ts';
import { fingerprint } from './fingerprint.ts';
import { readHistory } from './history.ts';
import { judgeImportRecord } from './import-record.ts';
import { readLake } from './lake.ts';
import { readPlaces } from './places.ts';
import { setPlannedApart } from './planned-rows.ts';
import { buildSurvey } from './survey.ts';
import { readTable } from './tables.ts';
import { readVariants } from './variants.ts';

export { readHistory } from './history.ts';
export { inputFiles } from './inputs.ts';
export { areaFault, readPlaces } from './places.ts';
export { readPlanned } from './planned.ts';
export { textTables } from './sheets.ts';

export interface Folder {
  name: string;
  /** file name → bytes */
  files: Map<string, Uint8Array>;
}

export type ReadResult = Reading;

/**
 * Reads what each file says by itself; what the files say together is judged by the checks. Never throws on
 * bad data: the findings hold it. Only when none of them is an error is the survey complete.
 */
export async function readFolder(folder: Folder): Promise<ReadResult> {
  const { files, name } = folder;
  const choices = readAnalysis(files.get(ANALYSIS_FILE), name);
  const { analysis } = choices;
  const classes = choices.classesKnown ? analysis.substrates : null;
  const written = readTable<TransectCells>(TRANSECTS, files.get(TRANSECTS.file), classes);
  const habitat = readTable<HabitatCells>(HABITAT, files.get(HABITAT.file), classes);
  const detections = readTable<DetectionCells>(DETECTIONS, files.get(DETECTIONS.file), classes);
  const planted = readTable<PlantedCells>(PLANTED_SHELLS, files.get(PLANTED_SHELLS.file), classes);
  const others = [habitat.draft, detections.draft, planted.draft];
  const { planned, ...transects } = setPlannedApart(written, others);
  const lake = await readLake(files, classes);
  const barred = files.get(NO_DIVE_FILE);
  const noDive = barred === undefined ? null : readPlaces(NO_DIVE_FILE, barred);
  const past = readHistory(files.get(HISTORY_FILE));
  const kept = readVariants(files.get(VARIANTS_FILE));
  const drafts = {
    transects: transects.draft,
    habitat: habitat.draft,
    detections: detections.draft,
    planted: planted.draft,
  };
  const findings = [
    ...missingTables(files),
    ...transects.findings,
    ...habitat.findings,
    ...detections.findings,
    ...planted.findings,
    ...choices.findings,
    ...lake.findings,
    ...(noDive?.findings ?? []),
    ...kept.findings,
    ...past.findings,
    ...judgeImportRecord(files.get(IMPORT_FILE)),
  ];
  return {
    name,
    fileNames: [...files.keys()],
    survey: buildSurvey(drafts),
    lake:
      noDive === null
        ? lake.lake
        : { ...lake.lake, noDive: noDive.polygons, noDiveNames: noDive.names },
    analysis,
    variants: kept.variants,
    history: past.history,
    fingerprint: fingerprint(files, analysis.substrates),
    drafts,
    planned,
    findings: inOrder(findings),
  };
}

function missingTables(files: Map<string, Uint8Array>): Finding[] {
  const missing = TABLES.filter(({ file }) => !files.has(file));
  return missing.map(({ file }) => {
    const like = [...files.keys()].find((name) => resembles(name, file));
    const hint =
      like === undefined ? '' : ` (there is ${visible(like)}; the name must match exactly)`;
    return errorAt({ table: file }, 'file-missing', `the file is missing from the folder${hint}`);
  });
}

/** `Transects.CSV`, `transects.csv.txt`, `transect.csv`, `transects.xlsx` */
function resembles(name: string, file: string): boolean {
  const stem = file.replace('.csv', '').replace(/s$/, '');
  return name.trim().toLowerCase().startsWith(stem) && name !== file;
}
