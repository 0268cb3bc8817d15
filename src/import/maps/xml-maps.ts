/** KML and GPX into layers. (OGC 12-007r2 KML 2.3; GPX 1.1.) */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import type { GivenFile, RawGeometry, RawLayer, RawValue } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { visible } from '../../../shared/words.ts';
import { layersOf, type ReadShape } from './shapes.ts';

type Json = { [key: string]: unknown };
interface Feature {
  geometry: Json | null;
  properties: Json | null;
}

const DEGREES = { kind: 'epsg', code: 4326 } as const;
const LONGEST_REASON = 160;
/** Of what the parser makes of styles nothing is kept. */
const LOOKS =
  /^(stroke|fill|icon|label|styleUrl|styleHash|styleMapHash|marker|visibility|coordinateProperties|_gpxType|@)/;

export async function readKml(file: GivenFile, findings: Finding[]): Promise<RawLayer[]> {
  const root = await xmlOf(file, 'kml', findings);
  if (root === null) return [];
  const { kmlWithFolders } = await import('@tmcw/togeojson');
  const tree = kmlWithFolders(root as never, { skipNullGeometry: false });
  const folders = new Map<string | null, ReadShape[]>();
  let row = 0;
  const walk = (node: Json, folder: string | null): void => {
    for (const child of node.children as Json[]) {
      if (child.type === 'folder') {
        const name = (child.meta as Json | undefined)?.name;
        // the outermost folders that hold something are layers
        walk(child, typeof name === 'string' && name.trim() !== '' ? name.trim() : folder);
      } else {
        const { geometry, properties } = child as unknown as Feature;
        row++;
        if (!folders.has(folder)) folders.set(folder, []);
        for (const part of partsOf(geometry))
          folders
            .get(folder)!
            .push({ geometry: part, properties: valuesOf(properties ?? {}), row });
      }
    }
  };
  walk(tree as unknown as Json, null);
  const links = root.getElementsByTagName('NetworkLink').length;
  if (links > 0)
    findings.push(
      noticeAt(
        { table: file.name },
        'links-left-out',
        `${formatCount(links)} links to maps elsewhere: left out, for nothing is fetched`,
      ),
    );
  if (folders.size === 0) folders.set(null, []);
  return [...folders].flatMap(([layer, shapes]) =>
    layersOf(
      { file: file.name, layer: folders.size === 1 ? null : layer, from: 'map', crs: DEGREES },
      shapes,
      findings,
    ),
  );
}

const GPX_LAYERS: Record<string, string> = { wpt: 'waypoints', trk: 'tracks', rte: 'routes' };

export async function readGpx(file: GivenFile, findings: Finding[]): Promise<RawLayer[]> {
  const root = await xmlOf(file, 'gpx', findings);
  if (root === null) return [];
  const { gpx } = await import('@tmcw/togeojson');
  const layers = new Map<string, ReadShape[]>();
  for (const { geometry, properties } of gpx(root as never).features as unknown as Feature[]) {
    const layer = GPX_LAYERS[String(properties?._gpxType)] ?? 'waypoints';
    if (!layers.has(layer)) layers.set(layer, []);
    const shapes = layers.get(layer)!;
    const row = shapes.length + 1;
    for (const part of partsOf(geometry)) {
      const z = part?.type === 'Point' ? part.coordinates[2] : undefined;
      const values = valuesOf(properties ?? {});
      shapes.push({
        geometry: part,
        properties: z === undefined ? values : { ...values, elevation_m: z },
        row,
      });
    }
  }
  if (layers.size === 0) layers.set('waypoints', []);
  return [...layers].flatMap(([layer, shapes]) =>
    layersOf({ file: file.name, layer, from: 'gps', crs: DEGREES }, shapes, findings),
  );
}

/** The document, or null with a finding. Entities of a document's own are refused, since they can grow without end. */
async function xmlOf(file: GivenFile, tag: string, findings: Finding[]) {
  const refuse = (message: string): null => {
    findings.push(errorAt({ table: file.name }, 'unreadable-map', message));
    return null;
  };
  const text = decodeXml(file.bytes);
  if (/<!ENTITY/i.test(text))
    return refuse(
      'declares entities of its own, which maps do not (refused, for they can grow without end)',
    );
  const { DOMParser } = await import('@xmldom/xmldom');
  const wrong: string[] = [];
  try {
    const parser = new DOMParser({
      onError: (level, message) => level !== 'warning' && wrong.push(message),
    });
    const root = parser.parseFromString(text, 'text/xml');
    if (wrong.length > 0) return refuse(`not sound XML (${shortened(wrong[0])})`);
    const element = root.documentElement;
    const local = element?.localName ?? element?.tagName ?? '';
    return local === tag
      ? root
      : refuse(`not ${tag.toUpperCase()} (its root is <${visible(local)}>)`);
  } catch (error) {
    return refuse(
      `not sound XML (${shortened(error instanceof Error ? error.message : String(error))}): was it cut off?`,
    );
  }
}

function decodeXml(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  const named = /<\?xml[^>]*encoding=["']([\w-]+)["']/i.exec(head)?.[1] ?? 'utf-8';
  try {
    return new TextDecoder(named).decode(bytes).replace(/^\uFEFF/, '');
  } catch {
    return new TextDecoder().decode(bytes);
  }
}

function shortened(reason: string): string {
  return visible(reason.split('\n')[0]).slice(0, LONGEST_REASON);
}

function partsOf(geometry: Json | null): (RawGeometry | null)[] {
  if (geometry === null) return [null];
  if (geometry.type === 'GeometryCollection')
    return (geometry.geometries as Json[]).flatMap(partsOf);
  return [geometry as unknown as RawGeometry];
}

function valuesOf(properties: Json): Record<string, RawValue> {
  const values: Record<string, RawValue> = {};
  for (const [key, value] of Object.entries(properties)) {
    if (LOOKS.test(key) || value === undefined) continue;
    const text = isObject(value) && typeof value.value === 'string' ? value.value : value;
    if (text === null || typeof text === 'string') values[key] = numberOrText(key, text);
    else if (typeof text === 'number') values[key] = Number.isFinite(text) ? text : null;
    else if (typeof text === 'boolean') values[key] = String(text);
  }
  return values;
}

/** KML has its values as text; names stay as they are written. */
function numberOrText(key: string, text: string | null): RawValue {
  if (text === null || text.trim() === '') return null;
  return key !== 'name' && /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text.trim()) ? Number(text) : text;
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
