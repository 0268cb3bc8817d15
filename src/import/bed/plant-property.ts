/** A map's plant cover, where it has one on the divers' scale of 0 to 4. */

import { term } from '../../../shared/glossary.ts';
import type { Ask, RawFeature, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { layerName } from './names.ts';

const OWN_NAME = 'plant_cover';
const NAMES = /plant|veg|macroph|weed|\bsav\b/i;
const MOST = 4;

/** Plant cover of a feature, null where it is not mapped; null when the map has none that can be used. */
export function plantProperty(
  layer: RawLayer,
  suffix: string,
  ask: Ask,
  remarks: string[],
): ((feature: RawFeature) => number | null) | null {
  const names = [...new Set(layer.features.flatMap((f) => Object.keys(f.properties)))];
  const own = names.find((name) => name.toLowerCase() === OWN_NAME);
  const name = own ?? names.find((one) => NAMES.test(one));
  if (name === undefined) return null;
  const values = layer.features.map((f) => scoreOf(f, name));
  const given = values.filter((v) => v !== null);
  const scores = given.filter((v) => v !== 'other');
  if (given.length === 0) return null;
  if (scores.length < given.length) {
    remarks.push(
      `${layerName(layer)}: ${name} is not on the scale from 0 to ${MOST} (${formatCount(given.length - scores.length)} of ${formatCount(given.length)} values); the map's ${term('plantCover')} is left out.`,
    );
    return null;
  }
  const use =
    own !== undefined ||
    ask({
      kind: 'choice',
      id: `substrate.plants${suffix}`,
      about: `${layerName(layer)}, ${name}`,
      ask: `Is ${name} the ${term('plantCover')} on the divers' scale, 0 none to ${MOST} dense?`,
      evidence: [`All ${formatCount(given.length)} values are whole numbers from 0 to ${MOST}.`],
      certain: false,
      pictures: [],
      options: [
        { value: 'yes', label: 'yes, take it' },
        { value: 'no', label: 'no, leave it out' },
      ],
      proposal: 'no',
    }) === 'yes';
  if (!use) return null;
  return (feature) => {
    const score = scoreOf(feature, name);
    return score === 'other' ? null : score;
  };
}

function scoreOf(feature: RawFeature, name: string): number | null | 'other' {
  const value = feature.properties[name] ?? null;
  const text = value === null ? '' : String(value).trim();
  if (text === '') return null;
  const score = Number(text);
  return Number.isInteger(score) && score >= 0 && score <= MOST ? score : 'other';
}
