/** The lake's files → its outline, substrate, depths and candidate treatment areas, every fault told. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { pairsOf } from '../../shared/positions.ts';
import type {
  InterpolatedSubstrate,
  Lake,
  LngLatPolygon,
  Positions,
  SubstratePatch,
  TreatmentArea,
} from '../../shared/survey.ts';
import type { Column } from '../../shared/tables.ts';
import { quoted } from '../../shared/words.ts';
import { readCell } from './cells.ts';
import { polygonFault } from './geo-rings.ts';
import { joinAtSeam, middleLongitude, unwrapped } from './geo-seam.ts';
import { type GeoFeature, positionsOf, property, readGeoJson, shownValue } from './geojson.ts';
import { readInterpolated } from './interpolated.ts';
import { readDepthLines } from './lake-depth.ts';
import { strayVertex } from './stray.ts';

const OUTLINE = 'outline.geojson';
const SUBSTRATE = 'substrate.geojson';
const DEPTH = 'depth.geojson';
const DEPTH_RASTER = 'depth.tif';
const TREATMENTS = 'treatments.geojson';
/** Of findings of one kind in one file, more than this are counted, not listed. */
const MOST_LISTED = 50;

const SUBSTRATE_COLUMN: Column = {
  name: 'substrate',
  label: 'substrate',
  type: 'classes',
  unit: null,
  required: 'always',
  blankMeans: null,
  meaning: 'Substrate of the polygon.',
  example: 'sand+gravel',
};
const PLANT_COLUMN: Column = {
  ...SUBSTRATE_COLUMN,
  name: 'plant_cover',
  label: 'plant cover',
  type: 'whole',
  required: null,
  min: 0,
  max: 4,
  beyond: 'off the scale',
  example: '2',
};

/**
 * `files` holds the folder's files under their names. `classes` are the substrate classes in their own spelling; null
 * when the list could not be read (then no class is judged). What cannot be read is left out of the lake, and a finding
 * says so; a missing outline, substrate or depth map is a notice. Never throws.
 */
export async function readLake(
  files: Map<string, Uint8Array>,
  classes: readonly string[] | null,
): Promise<{ lake: Lake; findings: Finding[] }> {
  const maps = readMaps(files);
  const findings = [...maps.findings, ...missing(files)];
  const outline = await readOutline(maps.features.get(OUTLINE), findings);
  const substrate = readSubstrate(maps.features.get(SUBSTRATE), classes, findings);
  const treatments = readTreatments(maps.features.get(TREATMENTS), findings);
  const depth = await readDepth(files, maps.features, findings);
  const { interpolated } = maps;
  const made = substrate === null || interpolated === null ? {} : { interpolated };
  return {
    lake: { outline, substrate, ...made, depth, treatments },
    findings: limited(findings),
  };
}

/** The features of every GeoJSON file, longitudes in one range around the lake. */
function readMaps(files: Map<string, Uint8Array>) {
  const features = new Map<string, GeoFeature[]>();
  const findings: Finding[] = [];
  let interpolated: InterpolatedSubstrate | null = null;
  for (const table of [OUTLINE, SUBSTRATE, DEPTH, TREATMENTS]) {
    const bytes = files.get(table);
    if (bytes === undefined || (table === DEPTH && files.has(DEPTH_RASTER))) continue;
    const read = readGeoJson(table, bytes);
    features.set(table, read.features);
    append(findings, read.findings);
    if (table !== SUBSTRATE) continue;
    const made = readInterpolated(table, read.members);
    interpolated = made.interpolated;
    append(findings, made.findings);
  }
  const located = [...features.values()].find((list) => list.length > 0);
  const middle = middleLongitude(located ?? []) ?? 0;
  for (const [table, list] of features) {
    features.set(
      table,
      list.map((f) => unwrapped(f, middle)),
    );
  }
  return { features, interpolated, findings };
}

function missing(files: Map<string, Uint8Array>): Finding[] {
  const findings: Finding[] = [];
  for (const table of [OUTLINE, SUBSTRATE, DEPTH]) {
    if (files.has(table) || (table === DEPTH && files.has(DEPTH_RASTER))) continue;
    const name = table === DEPTH ? `neither ${DEPTH} nor ${DEPTH_RASTER} is` : 'the file is not';
    const message = `${name} in the folder; abundance, strata and grid are left out`;
    findings.push(noticeAt({ table }, 'lake-file-missing', message));
  }
  return findings;
}

async function readOutline(
  features: GeoFeature[] | undefined,
  findings: Finding[],
): Promise<LngLatPolygon[] | null> {
  if (features === undefined) return null;
  const polygons = features.flatMap((f) => readPolygons(OUTLINE, f, findings));
  if (polygons.length > 0) return joinAtSeam(polygons.map((rings) => rings.map(pairsOf)));
  if (!findings.some((f) => f.table === OUTLINE && f.severity === 'error')) {
    const message = "no polygon (the water's edge as a Polygon or MultiPolygon expected)";
    findings.push(errorAt({ table: OUTLINE }, 'no-polygon', message));
  }
  return null;
}

function readSubstrate(
  features: GeoFeature[] | undefined,
  classes: readonly string[] | null,
  findings: Finding[],
): SubstratePatch[] | null {
  if (features === undefined) return null;
  const patches: SubstratePatch[] = [];
  for (const f of features) {
    const polygons = readPolygons(SUBSTRATE, f, findings);
    const hasPolygon = f.polygons.length > 0;
    const substrate = hasPolygon ? readSubstrateClass(f, classes, findings) : null;
    const plantCover = hasPolygon ? readPlantCover(f, findings) : null;
    if (polygons.length > 0 && substrate !== null) {
      patches.push({ substrate, plantCover, polygons, feature: f.feature });
    }
  }
  if (patches.length > 0) return patches;
  if (!findings.some((f) => f.table === SUBSTRATE && f.severity === 'error')) {
    const message = 'no polygon; abundance, strata and grid are left out';
    findings.push(noticeAt({ table: SUBSTRATE }, 'no-polygon', message));
  }
  return null;
}

function readSubstrateClass(
  f: GeoFeature,
  classes: readonly string[] | null,
  findings: Finding[],
): string[] | null {
  const spot = { table: SUBSTRATE, row: f.feature, column: 'substrate' };
  const text = asText(property(f, 'substrate'));
  if (text === null) {
    const message = 'the polygon has no substrate (a class, or several joined by +, expected)';
    findings.push(errorAt(spot, 'missing-value', message));
    return null;
  }
  const cell = readCell(SUBSTRATE_COLUMN, text, classes);
  if ('value' in cell) return cell.value as string[];
  findings.push(errorAt(spot, cell.fault.code, cell.fault.message));
  return null;
}

function readPlantCover(f: GeoFeature, findings: Finding[]): number | null {
  const text = asText(property(f, 'plant_cover'));
  if (text === null) return null;
  const cell = readCell(PLANT_COLUMN, text, null);
  if ('value' in cell) return cell.value as number;
  const spot = { table: SUBSTRATE, row: f.feature, column: 'plant_cover' };
  findings.push(errorAt(spot, cell.fault.code, cell.fault.message));
  return null;
}

function readTreatments(features: GeoFeature[] | undefined, findings: Finding[]): TreatmentArea[] {
  const areas: TreatmentArea[] = [];
  const featureOf = new Map<string, number>();
  for (const f of features ?? []) {
    const polygons = readPolygons(TREATMENTS, f, findings);
    if (polygons.length === 0) continue;
    const spot = { table: TREATMENTS, row: f.feature, column: 'name' };
    const given = asText(property(f, 'name'));
    const name = given ?? `area ${f.feature}`;
    if (given === null) {
      findings.push(
        noticeAt(spot, 'no-name', `the area has no name; it is called ${quoted(name)}`),
      );
    }
    const same = featureOf.get(name);
    if (same === undefined) featureOf.set(name, f.feature);
    else {
      const message = `${quoted(name)} is the name of feature ${same} too; each is reported by itself`;
      findings.push(noticeAt(spot, 'repeated-name', message));
    }
    areas.push({
      name,
      polygons: polygons.map((rings) => rings.map(pairsOf)),
      feature: f.feature,
    });
  }
  return areas;
}

async function readDepth(
  files: Map<string, Uint8Array>,
  maps: ReadonlyMap<string, GeoFeature[]>,
  findings: Finding[],
): Promise<Lake['depth']> {
  const bytes = files.get(DEPTH_RASTER);
  if (bytes === undefined) {
    const features = maps.get(DEPTH);
    if (features === undefined) return null;
    const { lines, findings: found } = readDepthLines(DEPTH, features);
    append(findings, found);
    return lines;
  }
  if (files.has(DEPTH)) {
    const message = `${DEPTH_RASTER} is in the folder too; the raster is used and this file left aside`;
    findings.push(noticeAt({ table: DEPTH }, 'two-depth-maps', message));
  }
  // few surveys have a raster: what reads it is loaded by those
  const { readDepthRaster } = await import('./geotiff.ts');
  const outline = (maps.get(OUTLINE) ?? []).flatMap((f) => positionsOf(f).flatMap(pairsOf));
  const { raster, findings: found } = await readDepthRaster(DEPTH_RASTER, bytes, outline);
  append(findings, found);
  return raster;
}

/** The polygons of a feature that can be used; other geometry is left out with a notice, a faulty polygon is an error. */
export function readPolygons(table: string, f: GeoFeature, findings: Finding[]): Positions[][] {
  const spot = { table, row: f.feature };
  if (f.lines.length + f.points.length > 0) {
    const message = 'lines and points are left out (polygons expected)';
    findings.push(noticeAt(spot, 'not-a-polygon', message));
  }
  const sound: Positions[][] = [];
  for (const [k, polygon] of f.polygons.entries()) {
    const fault = (table === OUTLINE ? strayOf(polygon) : null) ?? polygonFault(polygon);
    if (fault === null) {
      sound.push(polygon);
      continue;
    }
    const which = f.polygons.length === 1 ? '' : `polygon ${k + 1}: `;
    findings.push(errorAt(spot, 'unreadable-polygon', which + fault));
  }
  return sound;
}

function strayOf(polygon: readonly Positions[]): string | null {
  for (const ring of polygon) {
    const stray = strayVertex(ring);
    if (stray !== null) return stray;
  }
  return null;
}

/** Not by spreading: a call takes some 100,000 arguments, and a file may have more faults. */
function append(findings: Finding[], more: readonly Finding[]): void {
  for (const finding of more) findings.push(finding);
}

/** A property as a trimmed text; null when it is missing or blank. */
function asText(value: unknown): string | null {
  if (value === null || value === undefined) return null;
  const text = shownValue(value).trim();
  return text === '' ? null : text;
}

/** The first findings of each kind and file, then how many more there are. */
function limited(findings: Finding[]): Finding[] {
  const counts = new Map<string, number>();
  const listed: Finding[] = [];
  for (const f of findings) {
    const kind = `${f.table} ${f.severity} ${f.code}`;
    const n = (counts.get(kind) ?? 0) + 1;
    counts.set(kind, n);
    if (n <= MOST_LISTED) listed.push(f);
  }
  for (const [kind, n] of counts) {
    if (n <= MOST_LISTED) continue;
    const sample = findings.find((f) => `${f.table} ${f.severity} ${f.code}` === kind)!;
    const message = `${n - MOST_LISTED} more features like those listed`;
    listed.push({ ...sample, row: null, message });
  }
  return listed;
}
