/**
 * What each layer of a map is to the survey: proposed by its shapes, its columns and its name, and asked in one question. A
 * layer is known again next year by its shapes and columns, whatever its file is called then.
 */

import { term, terms } from '../../shared/glossary.ts';
import type { Ask, Option, RawLayer, RawRaster } from '../../shared/importing.ts';
import { formatCount } from '../../shared/units.ts';
import {
  type Field,
  layerSigns,
  MOST_VALUES,
  rasterSigns,
  type Shapes,
  type Signs,
  withKeys,
} from './layer-signs.ts';

export type LayerRole =
  | 'outline'
  | 'islands'
  | 'substrate'
  | 'depth'
  | 'depth-and-substrate'
  | 'treatments'
  | 'keep-out'
  | 'no-dive'
  | 'waypoints'
  | 'tracks'
  | 'leave-out';

export interface Sorted {
  role: LayerRole;
  layer: RawLayer;
}

export interface SortedRaster {
  role: LayerRole;
  raster: RawRaster;
}

const ROLES: Record<LayerRole, string> = {
  outline: 'the outline of the lake: areas, lines along its shore, or points in their order',
  islands: 'islands of the lake',
  substrate: `${term('substrate')}, as areas or as points`,
  depth: 'depths: contours, soundings or a raster',
  'depth-and-substrate': `${terms('depth')} and ${term('substrate')} at the same points`,
  treatments: `${terms('treatmentArea')} that are thought of`,
  'keep-out': terms('keepOut'),
  'no-dive': `places where nobody may dive: outside of the ${term('surveyedHabitat')}, no dive is planned there`,
  waypoints: `waypoints of the ${terms('transect')}`,
  tracks: 'where the boat went; it moves nothing',
  'leave-out': 'none of these: it is left out',
};
const OPTIONS: Option[] = Object.entries(ROLES).map(([value, label]) => ({ value, label }));

const SUBSTRATE =
  /substr|sustrat|bottom|fondo|^fond$|untergrund|sedim|^bed$|bed_?type|texture|material|grain|habitat/i;
const DEPTH =
  /depth|^dep(_|$)|tief|prof(ond|und)|^prof\.?(_|\W|$)|contour|elev|bathy|sound|fathom|^z$|z_?(m|ft)$/i;
const LABEL = /name|label|^id$|station|waypoint|transect|^wpt/i;
/** Fewer points draw no lake. */
const LEAST_SHORE_POINTS = 10;
/** At least two columns of numbers say where a point of a table is; a third may be its depth. */
const NUMERIC = 0.8;
const FEWEST_CLASSES = 2;
const MOST_FIELDS_NAMED = 8;

interface Proposal {
  role: LayerRole;
  why: string;
  /** no second reading: what it is stands in the kind of file itself */
  certain?: true;
}

/**
 * The part of every layer and raster, by the answer or as proposed. In an order that the names of the files have no part in: later
 * steps number their questions by it.
 */
export function sortLayers(
  layers: readonly RawLayer[],
  rasters: readonly RawRaster[],
  ask: Ask,
): { layers: Sorted[]; rasters: SortedRaster[] } {
  if (layers.length + rasters.length === 0) return { layers: [], rasters: [] };
  const signs = withKeys([...layers.map(layerSigns), ...rasters.map(rasterSigns)]);
  const proposals = oneOutline(signs, signs.map(proposed));
  const answer = ask({
    kind: 'matching',
    id: 'layers.roles',
    about: signs.map(({ label }) => label).join('; '),
    ask: signs.length === 1 ? 'What does this map hold?' : 'What does each of these maps hold?',
    evidence: signs.map((sign, i) => `${described(sign)}: ${proposals[i].why}.`),
    certain: proposals.every(({ certain }) => certain === true),
    keys: signs.map(({ key, label }) => ({ key, label })),
    options: OPTIONS,
    proposal: Object.fromEntries(signs.map(({ key }, i) => [key, proposals[i].role])),
    pictures: [],
  })!;
  const roleOf = (i: number): LayerRole => answer[signs[i].key] as LayerRole;
  const byKey = <T>(list: { key: string; value: T }[]): T[] =>
    list.sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ value }) => value);
  return {
    layers: byKey(
      layers.map((layer, i) => ({ key: signs[i].key, value: { layer, role: roleOf(i) } })),
    ),
    rasters: byKey(
      rasters.map((raster, k) => {
        const i = layers.length + k;
        return { key: signs[i].key, value: { raster, role: roleOf(i) } };
      }),
    ),
  };
}

const NOUNS: Record<Shapes, [string, string]> = {
  areas: ['area', 'areas'],
  lines: ['line', 'lines'],
  points: ['point', 'points'],
  raster: ['cell', 'cells'],
};

function described({ label, shapes, count, fields }: Signs): string {
  const noun = NOUNS[shapes][count === 1 ? 0 : 1];
  const names = fields.slice(0, MOST_FIELDS_NAMED).map(({ name }) => name);
  const more = fields.length > names.length ? ' …' : '';
  const columns = names.length === 0 ? '' : `; columns ${names.join(', ')}${more}`;
  return `${label} (${formatCount(count)} ${noun}${columns})`;
}

function proposed(sign: Signs): Proposal {
  const { shapes, from, words, fields } = sign;
  if (from === 'gps')
    return shapes === 'lines'
      ? { role: 'tracks', why: 'a GPS wrote these lines', certain: true }
      : { role: 'waypoints', why: 'a GPS wrote these points' };
  if (shapes === 'raster') return { role: 'depth', why: 'of rasters a survey has only depths' };
  const depth = fields.find((field) => DEPTH.test(field.name) && field.numbers >= NUMERIC);
  const substrate = fields.find(holdsClasses);
  const called = (pattern: RegExp): string | undefined =>
    [...words].find((word) => pattern.test(word));
  const byName = (role: LayerRole, word: string): Proposal => ({
    role,
    why: `its name has "${word}" in it`,
  });
  const shore = called(/outline|shore|lake|bank|boundary|hydro|water|perimeter/);
  if (shapes === 'points') {
    const role = pointsRole(sign, depth, substrate);
    return role.role === 'leave-out' && shore !== undefined && sign.count >= LEAST_SHORE_POINTS
      ? byName('outline', shore)
      : role;
  }
  const contours: Proposal | null =
    depth === undefined ? null : { role: 'depth', why: `column ${depth.name} holds numbers` };
  if (shapes === 'lines') {
    if (contours !== null) return contours;
    const deep = called(DEPTH);
    if (deep !== undefined) return byName('depth', deep);
    return shore === undefined
      ? { role: 'outline', why: 'lines without depths are most often pieces of a shore' }
      : byName('outline', shore);
  }
  const barred =
    shore === undefined ? called(/^(nodive|ferry|fairway|spillway|hazards?)$/) : undefined;
  const noDive = words.has('no') ? (called(/^div(es?|ing)$/) ?? barred) : barred;
  if (noDive !== undefined) return byName('no-dive', noDive);
  const treated = called(/treat|candidate|application|^areas$|^zones?$/);
  if (treated !== undefined) return byName('treatments', treated);
  const kept = called(/exclu|avoid|intake|beach|protect|native|keep/);
  if (kept !== undefined) return byName('keep-out', kept);
  if (substrate !== undefined)
    return {
      role: 'substrate',
      why: `column ${substrate.name} holds ${substrate.values.size} classes`,
    };
  if (contours !== null) return contours;
  const island = called(/island|islet/);
  if (island !== undefined) return byName('islands', island);
  return shore === undefined
    ? { role: 'outline', why: 'areas without classes and depths are most often the lake' }
    : byName('outline', shore);
}

function pointsRole(
  { fields }: Signs,
  depth: Field | undefined,
  substrate: Field | undefined,
): Proposal {
  if (depth !== undefined && substrate !== undefined)
    return {
      role: 'depth-and-substrate',
      why: `column ${depth.name} holds numbers, column ${substrate.name} ${substrate.values.size} classes`,
    };
  if (substrate !== undefined)
    return {
      role: 'substrate',
      why: `column ${substrate.name} holds ${substrate.values.size} classes`,
    };
  if (depth !== undefined) return { role: 'depth', why: `column ${depth.name} holds numbers` };
  const labelled = fields.find(({ name }) => LABEL.test(name));
  return labelled === undefined
    ? { role: 'leave-out', why: 'points without a name, a depth or a class' }
    : { role: 'waypoints', why: `points with names in column ${labelled.name}` };
}

/** A column by its name, with a few classes or mixtures of them. */
function holdsClasses({ name, values }: Field): boolean {
  return SUBSTRATE.test(name) && values.size >= FEWEST_CLASSES && values.size <= MOST_VALUES;
}

/** Two outlines of areas are one lake twice, or a lake and something else: the widest stays. */
function oneOutline(signs: readonly Signs[], proposals: readonly Proposal[]): Proposal[] {
  const outlines = signs.flatMap((sign, i) =>
    proposals[i].role === 'outline' && sign.shapes === 'areas' ? [{ i, sign }] : [],
  );
  const widest = outlines.reduce<(typeof outlines)[number] | null>(
    (most, one) => (most === null || one.sign.extent > most.sign.extent ? one : most),
    null,
  );
  return proposals.map((proposal, i) =>
    widest !== null && i !== widest.i && outlines.some((one) => one.i === i)
      ? {
          role: 'leave-out',
          why: `${proposal.why}, as of ${widest.sign.label}, which reaches farther`,
        }
      : proposal,
  );
}
