/**
 * Makes src/import/maps/epsg-table.ts out of the package epsg-index: `npx tsx tests/import/maps/make-epsg-table.ts`. Of each
 * system the projection and the area of use are taken; shifts between datums are not (they are not to be trusted there), but
 * come from src/import/maps/datums.ts by the name of the datum. Left out: what needs another datum, another prime meridian,
 * other axes, or a projection that is not built into the page. Systems that differ in a modern datum alone share a line, with a
 * letter at the codes of those that are fixed to a plate.
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECTIONS } from '../../../src/app/worker/projections.ts';
import {
  datumNamed,
  isModern,
  letterOf,
  MODERN,
  modernNamed,
} from '../../../src/import/maps/datums.ts';

const ROOT = join(import.meta.dirname, '../../..');
export const TABLE = join(ROOT, 'src/import/maps/epsg-table.ts');
const KINDS = new Set(['CRS-PROJCRS', 'CRS-GEOGCRS', 'CRS-GEOG3DCRS']);
/** What lies above is not of the register. */
const MOST_CODE = 32_767;
const NOT_OF_THE_PROJECTION =
  /^(ellps|datum|towgs84|nadgrids|a|b|rf|R|no_defs|type|wktext|vunits)(=|$)/;
const OTHER = /\+(pm|axis|geoidgrids|R_A|h_0|f|hyperbolic|approx)\b/;

interface Entry {
  code: string;
  kind: string;
  name: string;
  wkt: string | null;
  proj4: string | null;
  bbox: [number, number, number, number] | null;
}

export function makeTable(): string {
  const text = readFileSync(join(ROOT, 'node_modules/epsg-index/all.json'), 'utf8');
  const entries: Entry[] = Object.values(JSON.parse(text));
  const lines = new Map<string, { codes: string[]; name: string; rest: string; box: number[] }>();
  for (const entry of entries.sort((a, b) => Number(a.code) - Number(b.code))) {
    const made = lineOf(entry);
    if (made === null) continue;
    const known = lines.get(made.rest);
    if (known === undefined) lines.set(made.rest, { ...made, codes: [made.code] });
    else {
      known.codes.push(made.code);
      known.box = larger(known.box, made.box);
    }
  }
  const rows = [...lines.values()].map(
    ({ codes, name, rest, box }) => `${codes.join(' ')};${name};${rest};${box.join(' ')}`,
  );
  return `/** Made by tests/import/maps/make-epsg-table.ts out of the EPSG register as in epsg-index 2.0.0; not to be edited. */\n\nexport const EPSG_TABLE = \`\n${rows.join('\n')}\n\`;\n`;
}

function lineOf({ code, kind, name, wkt, proj4, bbox }: Entry) {
  if (!KINDS.has(kind) || wkt === null || proj4 === null || bbox === null) return null;
  if (Number(code) > MOST_CODE) return null;
  if (/deprecated|^NAD 1927 SPCS/i.test(name) || OTHER.test(proj4)) return null;
  const datum = /DATUM\["([^"]*)",\s*SPHEROID\["[^"]*",\s*([\d.]+),\s*([\d.]+)/.exec(wkt);
  if (datum === null) return null;
  const shift = (/\+towgs84=(\S+)/.exec(proj4)?.[1] ?? '0').split(',').map(Number);
  const near = shift.slice(0, 3).every((v) => Math.abs(v) < 2.5);
  const modern = near && isModern(datum[1], Number(datum[2]), Number(datum[3]));
  const found = datumNamed(datum[1]) ?? (modern ? MODERN : null);
  const projection = /\+proj=(\w+)/.exec(proj4)?.[1] ?? '';
  if (found === null || !PROJECTIONS.includes(projection)) return null;
  const parameters = proj4
    .split(/\s+/)
    .map((part) => part.replace(/^\+/, ''))
    .filter((part) => part !== '' && !part.startsWith('proj=') && !NOT_OF_THE_PROJECTION.test(part))
    .filter((part) => part !== 'units=m' && !/["()]|gsb/.test(part));
  // the datum stands in its own field; of projected systems it begins the name
  const clean = name.replace(/[;`\\$]/g, ' ').replace(/^[^/]+ \/ /, '');
  return {
    code: code + (found === MODERN ? letterOf(modernNamed(datum[1])) : ''),
    name: clean,
    rest: [found.key, [projection, ...parameters].join(' ')].join(';'),
    box: bbox,
  };
}

/** [north, west, south, east]; across ±180° the first one stays. */
function larger(a: number[], b: number[]): number[] {
  if (a[1] > a[3] || b[1] > b[3]) return a;
  return [Math.max(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2]), Math.max(a[3], b[3])];
}

if (process.argv[1] === import.meta.filename) writeFileSync(TABLE, makeTable());
