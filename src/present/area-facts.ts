/** The numbers of one area in words and figures: a row of a table, facts in a list, its corners. */

import type { AreaNumbers, NamedArea } from '../../shared/areas.ts';
import { label, labels, terms } from '../../shared/glossary.ts';
import {
  formatArea,
  formatDepth,
  formatDigits,
  formatLandArea,
  formatPercent,
  landArea,
  M3_PER_ACRE_FOOT,
  type UnitSystem,
} from '../../shared/units.ts';
import { exclusionWords } from './exclusions.ts';
import { NONE, quantityCells, quantityInShort } from './quantity.ts';

/** An area's numbers in a table. */
export interface AreaRow {
  name: string;
  /** of its water, in ha (acres), without the unit */
  land: string;
  meanDepth: string;
  /** whole column, m³ */
  volume: string;
  mussels: [estimate: string, interval: string];
  /** of the mussels on all of the surveyed habitat, with its interval */
  share: [share: string, interval: string];
}

export interface Corner {
  name: string;
  degrees: string;
  /** degrees and decimal minutes */
  minutes: string;
}

/** @param area with its name */
export function areaRow(area: NamedArea, units: UnitSystem = 'metric'): AreaRow {
  return {
    name: area.name,
    land: landArea(area.water_m2, units),
    meanDepth: area.mean_depth_m === null ? NONE : formatDepth(area.mean_depth_m, units),
    volume: formatDigits(area.volume_m3, 3),
    mussels: quantityCells(area.mussels),
    share: shareCells(area.share),
  };
}

/** The water of an area in a row: ha, acres, mean and greatest depth, m³, acre-feet, and what share of it was searched. */
export function waterCells(area: AreaNumbers): string[] {
  const depth = (m: number | null) => (m === null ? NONE : formatDepth(m));
  return [
    landArea(area.water_m2),
    landArea(area.water_m2, 'imperial'),
    depth(area.mean_depth_m),
    depth(area.greatest_depth_m),
    formatDigits(area.volume_m3, 3),
    formatDigits(area.volume_acre_feet, 3),
    area.searched_share === null ? NONE : sharePercent(area.searched_share),
  ];
}

export function shareCells(
  share: { share: number; lower: number | null; upper: number | null } | null,
): [string, string] {
  if (share === null) return [NONE, NONE];
  const { lower, upper } = share;
  const interval =
    lower === null || upper === null ? NONE : `${sharePercent(lower)} to ${sharePercent(upper)}`;
  return [sharePercent(share.share), interval];
}

/** Two digits: `45 %`. */
export const sharePercent = (share: number): string => formatPercent(Number(share.toPrecision(2)));

/** Everything that is known of an area, name and value. */
export function areaFacts(
  area: AreaNumbers,
  layerM: number | null,
  units: UnitSystem = 'metric',
): [string, string][] {
  return [...sizeFacts(area, layerM, units), ...musselFacts(area, units)];
}

/** The same at a glance, for the map: how much water, how many mussels, which share. */
export function areaInShort(area: AreaNumbers, units: UnitSystem = 'metric'): string[] {
  const depth = area.mean_depth_m === null ? '' : `, ${formatDepth(area.mean_depth_m, units)} deep`;
  const [share, interval] = shareCells(area.share);
  const volume =
    units === 'metric'
      ? `${formatDigits(area.volume_m3, 3)} m³`
      : `${formatDigits(area.volume_acre_feet, 3)} acre-feet`;
  return [
    `${formatLandArea(area.water_m2, units)}${depth}, ${volume}`,
    area.mussels === null
      ? `no number of ${terms('mussel')} there`
      : quantityInShort(area.mussels, terms('mussel')),
    ...(area.share === null
      ? []
      : [`${share} of them all${interval === NONE ? '' : ` (${interval})`}`]),
  ];
}

/** Water outside of the surveyed habitat, a line a reason. */
export function outsideLines({ outside }: AreaNumbers, units: UnitSystem = 'metric'): string[] {
  return outside.map((o) => `${formatArea(o.area_m2, units)}: ${exclusionWords(o.reason)}`);
}

/** Its water: area, volume, depths. */
function sizeFacts(
  area: AreaNumbers,
  layerM: number | null,
  units: UnitSystem,
): [string, string][] {
  const acreFeet = (m3: number) =>
    `${formatDigits(m3, 3)} m³ (${formatDigits(m3 / M3_PER_ACRE_FOOT, 3)} acre-feet)`;
  const facts: [string, string][] = [
    ['Water', `${landArea(area.water_m2)} ha (${landArea(area.water_m2, 'imperial')} acres)`],
    ['Volume, whole column', acreFeet(area.volume_m3)],
  ];
  if (layerM !== null && area.layer_m3 !== null)
    facts.push([
      `Volume, ${formatDepth(layerM, units)} at the surface or over the bed`,
      acreFeet(area.layer_m3),
    ]);
  if (area.mean_depth_m !== null) facts.push(['Mean depth', formatDepth(area.mean_depth_m, units)]);
  if (area.greatest_depth_m !== null)
    facts.push([label('greatestDepth'), formatDepth(area.greatest_depth_m, units)]);
  if (area.depth_unmapped_m2 >= 1)
    facts.push(['Depth not mapped, in no volume', formatArea(area.depth_unmapped_m2, units)]);
  if (area.off_lake_m2 >= 1)
    facts.push(['Outside of the lake', formatArea(area.off_lake_m2, units)]);
  return facts;
}

/** What lives in it, and how much of it was searched. */
function musselFacts(area: AreaNumbers, units: UnitSystem): [string, string][] {
  const facts: [string, string][] = [
    [label('surveyedHabitat'), formatArea(area.surveyed_m2, units)],
    [
      label('searchedArea'),
      area.searched_share === null
        ? formatArea(area.searched_m2, units)
        : `${formatArea(area.searched_m2, units)}, ${sharePercent(area.searched_share)} of its water`,
    ],
  ];
  const shown: [string, AreaNumbers['mussels']][] = [
    [labels('mussel'), area.mussels],
    [`${labels('mussel')} per ha`, area.mussels_per_ha],
    [`${labels('mussel')} per 1,000 m³`, area.mussels_per_1000_m3],
  ];
  for (const [name, q] of shown) if (q !== null) facts.push([name, inBrackets(quantityCells(q))]);
  facts.push(['Share of them all', inBrackets(shareCells(area.share))]);
  return facts;
}

const inBrackets = ([value, interval]: [string, string]): string =>
  interval === NONE ? value : `${value} (${interval})`;

export function cornersOf({ polygons }: Pick<NamedArea, 'polygons'>): Corner[] {
  const rings = polygons.flat();
  const many = rings.length > 1;
  return rings.flatMap((ring, r) =>
    ring.slice(0, -1).map(([lon, lat], i) => ({
      name: many ? `${r + 1}.${i + 1}` : String(i + 1),
      degrees: `${lat.toFixed(6)}, ${lon.toFixed(6)}`,
      minutes: `${decimalMinutes(lat, 'N', 'S')}, ${decimalMinutes(lon, 'E', 'W')}`,
    })),
  );
}

/** `44° 55.8000′ N`: to 0.2 m, as plotters take it. */
export function decimalMinutes(degrees: number, above: string, below: string): string {
  const tenThousandths = Math.round(Math.abs(degrees) * 600_000);
  const whole = Math.floor(tenThousandths / 600_000);
  const minutes = ((tenThousandths % 600_000) / 10_000).toFixed(4).padStart(7, '0');
  return `${whole}° ${minutes}′ ${degrees < 0 ? below : above}`;
}
