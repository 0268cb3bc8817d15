/**
 * The whole import, run anew for every set of answers: what was read → questions, and the files of the survey once none is
 * open. Nothing is applied before. The order is that of what each step needs to know: sheets, what each map is, where it
 * lies, waypoints, outline, depths, substrate.
 */

import { errorAt, type Finding, hasErrors } from '../../shared/findings.ts';
import type {
  Ask,
  GivenFile,
  ImportedTables,
  ImportOutcome,
  ImportPicture,
  PlacedRaster,
  RawGeometry,
  RawLayer,
} from '../../shared/importing.ts';
import type { LngLat } from '../../shared/survey.ts';
import {
  IMPORT_FILE,
  KEEP_OUT_FILE,
  NO_DIVE_FILE,
  TREATMENTS_FILE,
} from '../../shared/survey-files.ts';
import { TABLES } from '../../shared/tables.ts';
import { type Answered, askerWith } from './ask.ts';
import { depthMap, matchWaypoints, substrateMap } from './bed/index.ts';
import { classesFile } from './classes-file.ts';
import { areasFile, mergedAreas, outlineFile } from './lake-files.ts';
import { lakeOutline, placeLayers, zeroContours } from './maps/index.ts';
import type { Given } from './read-given.ts';
import { recordText } from './record.ts';
import { type LayerRole, sortLayers } from './sort.ts';
import { emptyTables, knownPlaces, sheetsOf, tableFiles } from './survey-tables.ts';

/** What the steps add to as they go. */
interface Work {
  ask: Ask;
  files: Map<string, Uint8Array>;
  findings: Finding[];
  remarks: string[];
  pictures: ImportPicture[];
}

export async function importSurvey(given: Given, asked: Answered): Promise<ImportOutcome> {
  // those of an import.json among the files stand behind what is answered now
  const answers = new Map([...given.answers, ...asked.answers]);
  const asker = askerWith({ ...asked, answers });
  const work: Work = {
    ask: asker.ask,
    files: new Map(given.kept),
    findings: [...given.findings],
    remarks: [],
    pictures: [],
  };
  makeFiles(given, work);
  const { files, findings, remarks, pictures } = work;
  if (files.size === 0) findings.push(nothingToBringIn(given));
  const questions = asker.asked();
  const applied = !hasErrors(findings) && questions.every(({ answer }) => answer !== null);
  if (applied)
    files.set(
      IMPORT_FILE,
      new TextEncoder().encode(recordText(given.sources, questions, remarks, files)),
    );
  return { questions, findings, remarks, pictures, files: applied ? files : null };
}

function makeFiles(given: Given, work: Work): void {
  const { ask } = work;
  const sheets = sheetsOf(given, ask);
  take(work, sheets);
  const layers = [...given.layers, ...sheets.points];
  const sorted = sortLayers(layers, given.rasters, ask);
  const used = sorted.layers.filter(({ role }) => role !== 'leave-out');
  const rasters = sorted.rasters.filter(({ role }) => role === 'depth');
  const placed = placeLayers(
    used.map(({ layer }) => layer),
    rasters.map(({ raster }) => raster),
    knownPlaces(sheets.tables),
    ask,
  );
  take(work, placed);
  for (const layer of [...used.map((one) => one.layer), ...rasters.map((one) => one.raster)])
    for (const text of layer.remarks)
      work.remarks.push(text.startsWith(layer.file) ? text : `${layer.file}: ${text}`);
  const roles = new Map(used.map(({ layer, role }) => [nameOf(layer), role]));
  const of = (...wanted: LayerRole[]): RawLayer[] =>
    placed.layers.filter((layer) => wanted.includes(roles.get(nameOf(layer))!));

  const tables = withWaypoints(sheets.tables, of('waypoints', 'tracks'), work);
  for (const [name, bytes] of tableFiles(given, tables, work.ask)) work.files.set(name, bytes);
  makeClasses(given, tables, work);
  const outline = makeOutline(given, of, tables, work);
  makeDepths(of('depth', 'depth-and-substrate'), placed.rasters, tables, outline, work);
  makeSubstrate(of('substrate', 'depth-and-substrate'), tables, outline, work);
  put(work, areasFile(TREATMENTS_FILE, of('treatments')));
  put(work, areasFile(KEEP_OUT_FILE, of('keep-out')));
  put(work, areasFile(NO_DIVE_FILE, of('no-dive')));
  withoutSheets(work);
}

function withoutSheets({ files, remarks }: Work): void {
  if (files.size === 0 || TABLES.some(({ file }) => files.has(file))) return;
  for (const [name, bytes] of emptyTables()) files.set(name, bytes);
  remarks.push('No sheet of dives was given: the tables of the survey are empty.');
}

function withWaypoints(tables: ImportedTables, layers: RawLayer[], work: Work): ImportedTables {
  if (layers.length === 0) return tables;
  const matched = matchWaypoints(layers, tables, work.ask);
  take(work, matched);
  return matched.tables;
}

/** A table of ours stays as it came, and what is wrong in it is told. */
function makeClasses({ ownTables }: Given, { habitat }: ImportedTables, work: Work): void {
  if (habitat === ownTables.habitat) return;
  const made = classesFile(habitat, work.files.get('analysis.json'));
  if (made === null) return;
  work.files.set(made.file.name, made.file.bytes);
  work.remarks.push(made.remark);
}

/** Of layers that were given; else the one that is kept; else of contours of depth 0. */
function makeOutline(
  given: Given,
  of: (...wanted: LayerRole[]) => RawLayer[],
  tables: ImportedTables,
  work: Work,
): RawGeometry | null {
  const pieces = of('outline', 'islands');
  const kept = given.ownLayers.find(({ file }) => file === 'outline.geojson');
  const contours = zeroContours(of('depth'));
  if (pieces.length === 0 && kept !== undefined) return mergedAreas(kept);
  if (pieces.length + contours.length === 0) return null;
  const shores = of('outline');
  // islands alone belong to the outline that is kept
  const made = lakeOutline(shores.length > 0 || kept === undefined ? shores : [kept], work.ask, {
    near: [...knownPlaces(tables), ...of('waypoints').flatMap(pointsOf)],
    islands: of('islands'),
    zeroContours: contours,
  });
  take(work, made);
  for (const picture of made.pictures) work.pictures.push(picture);
  if (made.outline !== null) put(work, outlineFile(made.outline));
  return made.outline;
}

function makeDepths(
  layers: RawLayer[],
  rasters: PlacedRaster[],
  tables: ImportedTables,
  outline: RawGeometry | null,
  work: Work,
): void {
  if (layers.length + rasters.length === 0) return;
  const made = depthMap(layers, rasters, tables, outline, work.ask);
  take(work, made);
  // one map of depths, in one of its two forms
  if (made.file !== null)
    for (const name of ['depth.geojson', 'depth.tif']) work.files.delete(name);
  put(work, made.file);
}

/** Points, or the breaks that divers recorded, become a map only where none is kept. */
function makeSubstrate(
  layers: RawLayer[],
  tables: ImportedTables,
  outline: RawGeometry | null,
  work: Work,
): void {
  if (layers.length === 0 && work.files.has('substrate.geojson')) return;
  const made = substrateMap(layers, tables, outline, work.ask);
  take(work, made);
  put(work, made.file);
}

function take(work: Work, made: { findings: Finding[]; remarks: string[] }): void {
  for (const finding of made.findings) work.findings.push(finding);
  for (const remark of made.remarks) if (!work.remarks.includes(remark)) work.remarks.push(remark);
}

function put(work: Work, file: GivenFile | null): void {
  if (file === null) return;
  if (work.files.has(file.name))
    work.remarks.push(
      `${file.name} that was given in our format is replaced by the map beside it.`,
    );
  work.files.set(file.name, file.bytes);
}

function nameOf({ file, layer, from }: RawLayer): string {
  return JSON.stringify([file, layer, from]);
}

function pointsOf({ features }: RawLayer): LngLat[] {
  return features.flatMap(({ geometry }) =>
    geometry.type === 'Point' ? [[geometry.coordinates[0], geometry.coordinates[1]] as LngLat] : [],
  );
}

function nothingToBringIn({ sources }: Given): Finding {
  return errorAt(
    { table: sources[0]?.name ?? 'import' },
    'nothing-to-bring-in',
    'nothing of a survey was found in these files (sheets, maps of the lake, waypoints or a survey folder expected)',
  );
}
