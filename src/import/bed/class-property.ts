/** Which property of a map, or of samples, names the substrate. */

import { term } from '../../../shared/glossary.ts';
import type { Ask, RawLayer, RawValue } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';
import { layerName } from './names.ts';

const OWN_NAME = 'substrate';
/** More different values than this are names or numbers of areas, not classes. */
const MOST_VALUES = 60;
/** Of the values so many are shown. */
const MOST_SHOWN = 6;
const NAMES =
  /substr|sustrat|bottom|^fondo?$|untergrund|sedim|^bed|bed_?type|texture|material|grain|lithol|facies|geolog|^class|_class$|^type$|habitat/i;
/** What a GIS counts or measures itself, and what is plainly something else. */
const OTHER_NAMES =
  /^(fid|oid|gid|objectid.*|.*_?id|id_.*|shape_?(l|a).*|st_?length.*|st_?area.*|length.*|perimeter|area.*|acres|hectares|plant.*|veg.*|depth.*|lat.*|lon.*|x|y|z|easting|northing|date.*|time.*)$/i;

export interface ClassProperty {
  layer: RawLayer;
  property: string;
}

/** Null when no property can hold classes, or none is answered. */
export function classProperty(
  layer: RawLayer,
  suffix: string,
  ask: Ask,
  remarks: string[],
): ClassProperty | null {
  const candidates = candidatesOf(layer);
  const named = candidates.filter((c) => NAMES.test(c.name));
  const own = candidates.find((c) => c.name.toLowerCase() === OWN_NAME);
  const single = own ?? (candidates.length === 1 ? candidates[0] : undefined);
  if (single !== undefined) {
    remarks.push(`${layerName(layer)}: the ${term('substrate')} is taken from ${single.name}.`);
    return { layer, property: single.name };
  }
  if (candidates.length === 0) return null;
  const answer = ask({
    kind: 'choice',
    id: `substrate.property${suffix}`,
    about: layerName(layer),
    ask: `Which property of the map is the ${term('substrate')}?`,
    evidence: candidates.map((c) => `${c.name}: ${c.told}.`),
    certain: named.length === 1,
    pictures: [],
    options: candidates.map((c) => ({ value: c.name, label: c.name, because: c.told })),
    proposal: named[0]?.name ?? null,
  });
  return answer === null ? null : { layer, property: answer };
}

/** A value as a code: trimmed; null where it is blank. */
export function codeOf(value: RawValue | undefined): string | null {
  const text = value === null || value === undefined ? '' : String(value).trim();
  return text === '' ? null : text;
}

function candidatesOf(layer: RawLayer): { name: string; told: string }[] {
  const names = new Set(layer.features.flatMap((f) => Object.keys(f.properties)));
  const found = [...names].flatMap((name) => {
    const values = new Map<string, number>();
    for (const { properties } of layer.features) {
      const code = codeOf(properties[name]);
      if (code !== null) values.set(code, (values.get(code) ?? 0) + 1);
    }
    const numbers = [...values.keys()].every((v) => /^[+-]?\d+\.\d+$/.test(v));
    if (values.size === 0 || values.size > MOST_VALUES || numbers) return [];
    const most = [...values].sort((a, b) => b[1] - a[1]).slice(0, MOST_SHOWN);
    const more = values.size > MOST_SHOWN ? ' …' : '';
    return [
      {
        name,
        told: `${formatCount(values.size)} different values: ${most.map(([v]) => quoted(v)).join(', ')}${more}`,
      },
    ];
  });
  const likely = found.filter((c) => !OTHER_NAMES.test(c.name) || NAMES.test(c.name));
  return likely.length > 0 ? likely : found;
}
