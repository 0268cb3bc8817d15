/** Which property of a depth map is the depth, and its numbers feature by feature. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import type { Ask, Option, RawFeature, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { listed, plain, quoted } from '../../../shared/words.ts';
import { readMapNumber } from './map-numbers.ts';
import { layerName } from './names.ts';

/** Our own name of it: the column of depth.geojson. */
export const OWN_NAME = 'depth_m';
/** A property holds numbers when so many of its values that are there can be read as such. */
const MOSTLY = 0.5;
/** Of values that cannot be read so many are listed by themselves. */
const MOST_LISTED = 20;
/** Names that speak of depth or height. */
const DEPTH_NAMES =
  /depth|dpth|\bdep\b|contour|isobath|sound|bathy|elev|height|altitude|^z$|level|tief|prof(ond|und)|^prof\b/i;
/** Names that a GIS gives to what it counts or measures itself. */
const OTHER_NAMES =
  /^(fid|id|oid|gid|objectid.*|.*_?id|id_.*|shape_?(l|a).*|st_?length.*|st_?area.*|length.*|len|perimeter|area.*|acres|hectares|x|y|lon.*|lat.*|east.*|north.*|x_?coord.*|y_?coord.*|utm.*|point_?[xy]|year|date.*|time.*|station.*|sample.*|site.*|points?|pt|wpt|count|no|nr|num.*|row|line|track)$/i;

export interface DepthFeature {
  feature: RawFeature;
  value: number;
  /** metres in the unit that the value itself names; null where it names none */
  unitM: number | null;
}

export interface DepthValues {
  layer: RawLayer;
  property: string;
  features: DepthFeature[];
}

/** `suffix` tells several maps of depth apart in the identifiers of the questions: '' for the first. Null when none can be had. */
export function depthValues(
  layer: RawLayer,
  suffix: string,
  ask: Ask,
): { values: DepthValues | null; findings: Finding[]; remarks: string[] } {
  const remarks: string[] = [];
  const property = propertyOf(layer, suffix, ask, remarks);
  if (property === null) {
    const message = 'no property holds numbers that could be depths; the map is left out';
    return {
      values: null,
      findings: [noticeAt({ table: layerName(layer) }, 'no-depth-property', message)],
      remarks,
    };
  }
  const { features, findings } = readValues(layer, property, remarks);
  return {
    values: features.length === 0 ? null : { layer, property, features },
    findings,
    remarks,
  };
}

function propertyOf(layer: RawLayer, suffix: string, ask: Ask, remarks: string[]): string | null {
  const candidates = numericProperties(layer);
  const named = candidates.filter((c) => DEPTH_NAMES.test(c.name));
  const own = candidates.find((c) => c.name.toLowerCase() === OWN_NAME);
  const rest = named.length > 0 ? named : candidates;
  const single = own ?? (candidates.length === 1 ? candidates[0] : null);
  if (single !== null) {
    const why = own === undefined ? 'the one property with numbers' : 'by its name';
    remarks.push(`${layerName(layer)}: the depth is taken from ${single.name}, ${why}.`);
    return single.name;
  }
  if (candidates.length === 0) return null;
  const proposal = rest.length === 1 ? rest[0].name : (bestNamed(rest)?.name ?? null);
  return ask({
    kind: 'choice',
    id: `depth.property${suffix}`,
    about: layerName(layer),
    ask: 'Which property of the map is the depth?',
    evidence: candidates.map((c) => `${c.name}: ${c.told}.`),
    certain: named.length === 1,
    pictures: [],
    options: candidates.map((c): Option => ({ value: c.name, label: c.name, because: c.told })),
    proposal,
  });
}

interface Candidate {
  name: string;
  told: string;
}

function bestNamed(candidates: readonly Candidate[]): Candidate | null {
  return (
    candidates.find((c) => /depth/i.test(c.name) && /_?m$/i.test(c.name)) ??
    candidates.find((c) => /depth/i.test(c.name)) ??
    candidates.find((c) => /contour|isobath|sound/i.test(c.name)) ??
    null
  );
}

/** Properties of which most values are numbers; those that a GIS counts or measures itself only where there is no other. */
function numericProperties(layer: RawLayer): Candidate[] {
  const names = new Set(layer.features.flatMap((f) => Object.keys(f.properties)));
  const found = [...names].flatMap((name): Candidate[] => {
    let [given, numbers, least, most] = [0, 0, Infinity, -Infinity];
    for (const { properties } of layer.features) {
      const read = readMapNumber(properties[name] ?? null);
      if (read === null) continue;
      given++;
      if (read === 'unreadable') continue;
      numbers++;
      least = Math.min(least, read.value);
      most = Math.max(most, read.value);
    }
    if (numbers === 0 || numbers < MOSTLY * given) return [];
    const told = `${formatCount(numbers)} of ${formatCount(layer.features.length)} features have a number there, from ${plain(least)} to ${plain(most)}`;
    return [{ name, told }];
  });
  const likely = found.filter((c) => !OTHER_NAMES.test(c.name) || DEPTH_NAMES.test(c.name));
  return likely.length > 0 ? likely : found;
}

function readValues(
  layer: RawLayer,
  property: string,
  remarks: string[],
): { features: DepthFeature[]; findings: Finding[] } {
  const table = layerName(layer);
  const features: DepthFeature[] = [];
  const findings: Finding[] = [];
  let [blank, unreadable, ranges] = [0, 0, 0];
  for (const feature of layer.features) {
    const given = feature.properties[property] ?? null;
    const read = readMapNumber(given);
    const isArea = /Polygon$/.test(feature.geometry.type);
    if (read === null) blank++;
    else if (read === 'unreadable' || (read.range && !isArea)) {
      unreadable++;
      if (unreadable > MOST_LISTED) continue;
      const message = `${quoted(String(given))} is not a depth (one number expected, with or without its unit); it is left out`;
      findings.push(
        noticeAt({ table, row: feature.row, column: property }, 'depth-unreadable', message),
      );
    } else {
      if (read.range) ranges++;
      features.push({ feature, value: read.value, unitM: read.unitM });
    }
  }
  if (unreadable > MOST_LISTED) {
    const message = `${formatCount(unreadable - MOST_LISTED)} more values like those listed are left out`;
    findings.push(noticeAt({ table, column: property }, 'depth-unreadable', message));
  }
  if (blank > 0) {
    const message = `${formatCount(blank)} of ${formatCount(layer.features.length)} features have no depth; they are left out`;
    findings.push(noticeAt({ table, column: property }, 'depth-blank', message));
  }
  if (ranges > 0)
    remarks.push(
      `${table}: ${formatCount(ranges)} polygons name a range of depths; their outer edge is taken to lie at its shallow end.`,
    );
  const units = new Set(features.flatMap((f) => (f.unitM === null ? [] : [f.unitM])));
  if (units.size > 0)
    remarks.push(
      `${table}: ${formatCount(features.filter((f) => f.unitM !== null).length)} values name their unit (${listed([...units].map(unitName), 'and')}) and are taken in it.`,
    );
  return { features, findings };
}

function unitName(unitM: number): string {
  if (unitM === 1) return 'metres';
  if (unitM === 0.01) return 'centimetres';
  if (unitM > 1) return 'fathoms';
  return unitM > 0.1 ? 'feet' : 'inches';
}
