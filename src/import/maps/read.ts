/** Map files of all formats into layers and rasters in their own coordinates, known by their content rather than their names. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { GivenFile, RawLayer, RawRaster } from '../../../shared/importing.ts';
import { listed, visible } from '../../../shared/words.ts';
import { isGeoJson, readGeoJson } from './geojson.ts';
import { isSqlite, readGeoPackage } from './geopackage.ts';
import { isTiff, readGeoTiff } from './geotiff.ts';
import { isShapefile, readShapefile, type ShapefileParts } from './shapefile.ts';
import { readGpx, readKml } from './xml-maps.ts';

export interface MapsRead {
  layers: RawLayer[];
  rasters: RawRaster[];
  /** names of the files that were taken for maps, also of those with an error */
  used: string[];
  findings: Finding[];
}

/** Files of a shapefile that hold nothing that is needed. */
const IDLE_PARTS = new Set([
  'shx',
  'sbn',
  'sbx',
  'qpj',
  'qix',
  'qmd',
  'fix',
  'xml',
  'cst',
  'ain',
  'aih',
  'atx',
]);
/** Files that GIS software lays beside others. */
const BESIDE = /\.(aux\.xml|ovr|tfw|qml|sld|lyr|lyrx|gpkg-(wal|shm)|shp\.xml)$/i;
const MAP_NAMES = /\.(shp|gpkg|geojson|kml|gpx|tiff?|dbf|prj|cpg|shx)$/i;
/** Formats of GIS that are not read. */
const OTHER_MAPS: [RegExp, string][] = [
  [
    /\.(gdb|gdbtable|mdb)(\/|$)/i,
    'a geodatabase (a shapefile or GeoPackage expected; GIS software exports them)',
  ],
  [
    /\.(dwg|dxf|dgn)$/i,
    'a drawing (a shapefile or GeoPackage expected; GIS software exports them)',
  ],
  [
    /\.(lpk|mpk|mxd|aprx|qgz|qgs)$/i,
    'a project of GIS software, which holds no shapes itself (its layers expected)',
  ],
  [
    /\.(e00|mif|tab|fgb|topojson|gml)$/i,
    'a map format that is not read (a shapefile, GeoPackage or GeoJSON expected)',
  ],
];

/** Never throws: what is wrong with a file is a finding that names it. */
export async function readMapFiles(files: readonly GivenFile[]): Promise<MapsRead> {
  const read: MapsRead = { layers: [], rasters: [], used: [], findings: [] };
  const { sets, parts } = shapefileSets(files);
  for (const set of sets) {
    await guarded(set.shp, read, async () => {
      take(read, readShapefile(set, read.findings));
    });
    for (const part of [set.dbf, set.prj, set.cpg]) if (part !== null) read.used.push(part.name);
  }
  for (const file of files) if (!parts.has(file)) await readOne(file, read);
  tellLooseParts(files, sets, read);
  return read;
}

async function readOne(file: GivenFile, read: MapsRead): Promise<void> {
  const { bytes, name } = file;
  const { findings } = read;
  const other = OTHER_MAPS.find(([pattern]) => pattern.test(name));
  if (other !== undefined) {
    read.used.push(name);
    findings.push(noticeAt({ table: name }, 'other-map-format', `${other[1]}: left out`));
  } else if (BESIDE.test(name)) read.used.push(name);
  else if (bytes.length === 0) {
    if (MAP_NAMES.test(name))
      await guarded(
        file,
        read,
        async () => void findings.push(errorAt({ table: name }, 'file-empty', 'the file is empty')),
      );
  } else if (isSqlite(bytes))
    await guarded(file, read, async () => void take(read, await readGeoPackage(file, findings)));
  else if (isTiff(bytes))
    await guarded(file, read, async () => {
      const raster = await readGeoTiff(file, findings);
      if (raster !== null) read.rasters.push(raster);
    });
  else {
    const head = headOf(bytes);
    if (/<gpx[\s>]/i.test(head))
      await guarded(file, read, async () => void take(read, await readGpx(file, findings)));
    else if (/<kml[\s>]/i.test(head) || /\.kml$/i.test(name))
      await guarded(file, read, async () => void take(read, await readKml(file, findings)));
    else if (/\.geojson$/i.test(name) || isGeoJson(head))
      await guarded(file, read, async () => void take(read, readGeoJson(file, findings)));
    else if (MAP_NAMES.test(name) && !/\.(dbf|prj|cpg|shx)$/i.test(name))
      await guarded(
        file,
        read,
        async () =>
          void findings.push(
            errorAt(
              { table: name },
              'unreadable-map',
              `not what its name says (${expected(name)} expected): was it cut off?`,
            ),
          ),
      );
  }
}

function take(read: MapsRead, layers: readonly RawLayer[]): void {
  for (const layer of layers) read.layers.push(layer);
}

/** Marks the file as used; whatever goes wrong in a reader is told of the file. */
async function guarded(file: GivenFile, read: MapsRead, work: () => Promise<void>): Promise<void> {
  read.used.push(file.name);
  try {
    await work();
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    read.findings.push(
      errorAt(
        { table: file.name },
        'unreadable-map',
        `cannot be read (${visible(reason).slice(0, 160)})`,
      ),
    );
  }
}

function expected(name: string): string {
  if (/\.gpkg$/i.test(name)) return 'a SQLite database';
  if (/\.tiff?$/i.test(name)) return 'a TIFF';
  if (/\.gpx$/i.test(name)) return 'GPX';
  return 'a map of that format';
}

function headOf(bytes: Uint8Array): string {
  const utf16 =
    (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const label = utf16 ? (bytes[0] === 0xff ? 'utf-16le' : 'utf-16be') : 'utf-8';
  return new TextDecoder(label).decode(bytes.subarray(0, 100_000));
}

/** Parts belong together by their names without the ending; the .shp leads. */
function shapefileSets(files: readonly GivenFile[]): {
  sets: ShapefileParts[];
  parts: Set<GivenFile>;
} {
  const byStem = new Map<string, Map<string, GivenFile>>();
  for (const file of files) {
    const [, stem, ending] = /^(.*)\.(\w+)$/.exec(file.name.replace(/\.shp\.xml$/i, '.xml')) ?? [];
    if (stem === undefined) continue;
    const key = stem.toLowerCase();
    if (!byStem.has(key)) byStem.set(key, new Map());
    byStem.get(key)!.set(ending.toLowerCase(), file);
  }
  const sets: ShapefileParts[] = [];
  const parts = new Set<GivenFile>();
  for (const group of byStem.values()) {
    const shp = group.get('shp');
    if (shp === undefined) continue;
    const part = (ending: string) => group.get(ending) ?? null;
    sets.push({ shp, dbf: part('dbf'), prj: part('prj'), cpg: part('cpg') });
    for (const ending of ['shp', 'dbf', 'prj', 'cpg', ...IDLE_PARTS]) {
      const found = group.get(ending);
      if (found !== undefined) parts.add(found);
    }
  }
  // a shapefile may come under another name
  for (const file of files)
    if (!parts.has(file) && isShapefile(file.bytes) && !/\.shx$/i.test(file.name)) {
      sets.push({ shp: file, dbf: null, prj: null, cpg: null });
      parts.add(file);
    }
  return { sets, parts };
}

/** Parts whose .shp is missing: the shapes themselves. */
function tellLooseParts(
  files: readonly GivenFile[],
  sets: readonly ShapefileParts[],
  read: MapsRead,
): void {
  const stems = new Set(sets.map(({ shp }) => shp.name.replace(/\.\w+$/, '').toLowerCase()));
  const loose = new Map<string, string[]>();
  for (const { name } of files) {
    const [, stem, ending] = /^(.*)\.(dbf|prj|cpg|shx|sbn|sbx)$/i.exec(name) ?? [];
    if (stem === undefined || read.used.includes(name)) continue;
    read.used.push(name);
    if (stems.has(stem.toLowerCase())) continue;
    loose.set(stem, [...(loose.get(stem) ?? []), `.${ending}`]);
  }
  for (const [stem, endings] of loose)
    read.findings.push(
      errorAt(
        { table: `${stem}.shp` },
        'shapefile-part-missing',
        `missing, but its ${listed(endings, 'and')} ${endings.length === 1 ? 'was' : 'were'} given (the .shp holds the shapes: give all parts together, or the zip)`,
      ),
    );
}
