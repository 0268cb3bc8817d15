/** Treatment areas and proposals in words and figures, for the terminal and for the sheets that go on the boat. */

import type {
  AreaNumbers,
  AreaRequest,
  AreasFile,
  NamedArea,
  Proposal,
} from '../../shared/areas.ts';
import { label, labels, term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';
import {
  formatArea,
  formatCount,
  formatDepth,
  formatDepthBand,
  formatDigits,
  formatPercent,
  landArea,
  M3_PER_ACRE_FOOT,
} from '../../shared/units.ts';
import { type AreaPicture, areaPictures } from './area-picture.ts';
import { exclusionWords } from './exclusions.ts';
import {
  ciName,
  NONE,
  probabilityText,
  quantityCells,
  quantityInFull,
  quantityInShort,
} from './quantity.ts';

/** An area's numbers in a table. */
export interface AreaRow {
  name: string;
  /** of its water, without the unit */
  ha: string;
  meanDepth: string;
  /** whole column, m³ */
  volume: string;
  mussels: [estimate: string, interval: string];
  /** of the mussels on all of the surveyed habitat, with its interval */
  share: [share: string, interval: string];
}

export interface ProposalRow extends AreaRow {
  /** the share without what choosing by the same data added to it */
  corrected: [share: string, interval: string];
}

/** One area on a page of its own. */
export interface AreaSheet {
  name: string;
  facts: readonly [name: string, value: string][];
  /** water outside of the surveyed habitat, a line a reason */
  outside: string[];
  picture: AreaPicture;
  corners: Corner[];
  /** what of the corners is not listed; null where all are */
  more: string | null;
}

export interface Corner {
  name: string;
  degrees: string;
  /** degrees and decimal minutes */
  minutes: string;
}

/** The lake that areas are drawn on. */
export type AreaLake = Pick<SurveyResult, 'lake' | 'plane'>;

export interface AreasRead {
  lake: string;
  ciName: string;
  /** the number that shares are taken of */
  opening: string;
  candidates: AreaRow[];
  /** null without candidates */
  leftOut: string | null;
  /** what was asked for */
  asked: string;
  proposals: ProposalRow[];
  /** the best single compact area, to hold them against */
  compact: AreaRow | null;
  /** beside the proposals; or why there is none */
  notes: string[];
  /** the first row is the head */
  curve: string[][];
  /** candidates by their mussels, each with the chance that it holds more than the next one: `Island more than Middle reef`, `99 %` */
  order: [pair: string, chance: string][];
  sheets: AreaSheet[];
}

/** More corners than these stand in the files alone. */
const MOST_CORNERS = 60;
const IN_FILES = 'areas.gpx, areas.kml and areas.geojson';

export function readAreas(file: AreasFile, result: AreaLake): AreasRead {
  const { request, total, proposals, compact, candidates, interval } = file;
  const draw = areaPictures(result);
  const band = formatDepthBand(file.depth_from_m, file.depth_to_m);
  return {
    lake: file.lake,
    ciName: ciName(interval),
    opening: `Shares are of ${quantityInFull(total.mussels, terms('mussel'), interval)} on ${formatArea(total.surveyed_m2)} of ${term('surveyedHabitat')}, ${band} deep.`,
    candidates: candidates.map(rowOf),
    leftOut: leftOutOf(file),
    asked: askedOf(request, file.blocks),
    proposals: proposals.map((p) => ({ ...rowOf(p), corrected: shareCells(p.corrected) })),
    compact: compact && rowOf(compact),
    notes: notesOf(file),
    curve: curveOf(file),
    order: orderOf(file),
    sheets: [...proposals, ...candidates].map((area) => sheetOf(area, request, draw)),
  };
}

function rowOf(area: NamedArea): AreaRow {
  return {
    name: area.name,
    ha: landArea(area.water_m2),
    meanDepth: area.mean_depth_m === null ? NONE : formatDepth(area.mean_depth_m),
    volume: formatDigits(area.volume_m3, 3),
    mussels: quantityCells(area.mussels),
    share: shareCells(area.share),
  };
}

function shareCells(
  share: { share: number; lower: number | null; upper: number | null } | null,
): [string, string] {
  if (share === null) return [NONE, NONE];
  const { lower, upper } = share;
  const interval =
    lower === null || upper === null ? NONE : `${percent(lower)} to ${percent(upper)}`;
  return [percent(share.share), interval];
}

const percent = (share: number): string => formatPercent(Number(share.toPrecision(2)));

function leftOutOf({ left_out }: AreasFile): string | null {
  if (left_out === null) return null;
  const { mussels, surveyed_m2, share } = left_out;
  const of = share === null ? '' : `, ${percent(share.share)} of them all`;
  return `Outside of all of them: ${quantityInShort(mussels, terms('mussel'))}${of}, on ${formatArea(surveyed_m2)} of ${term('surveyedHabitat')}.`;
}

function askedOf(request: AreaRequest, blocks: AreasFile['blocks']): string {
  const { budget_m2, budget_m3, layer_m, least_area_m2, least_width_m, margin_m } = request;
  const layer =
    layer_m === null ? '' : `, the layer of ${formatDepth(layer_m)} at the surface or over the bed`;
  const budget =
    budget_m2 === null
      ? `${formatDigits(budget_m3 ?? 0, 4)} m³ of water${layer}`
      : `${formatArea(budget_m2)} of water`;
  const margin =
    margin_m > 0
      ? ` Around each ${term('detection')} within an area at least ${formatDepth(margin_m)} belong to it.`
      : '';
  const kept =
    blocks.excluded === 0
      ? ''
      : ` ${formatCount(blocks.excluded)} ${blocks.excluded === 1 ? 'square' : 'squares'} in excluded places left out.`;
  return `At most ${budget}, in squares of ${formatDepth(blocks.side_m)} (at least ${formatArea(least_area_m2)} as one area, ${formatDepth(least_width_m)} wide).${margin}${kept}`;
}

function notesOf({ proposals, blocks }: AreasFile): string[] {
  if (proposals.length === 0)
    return [
      blocks.eligible === 0
        ? `No square is at least half ${term('surveyedHabitat')}: nothing can be proposed.`
        : 'The budget takes no square: nothing can be proposed.',
    ];
  const bound = proposals[0].bound_share;
  return [
    `Share: as it looks. Corrected: without what an area gains by having been chosen by the data that it is judged by; chosen areas look better than they are.`,
    `No choice of such squares for this budget, connected or not, holds more than ${percent(bound)}.`,
  ];
}

function curveOf({ curve, request }: AreasFile): string[][] {
  const byArea = request.budget_m2 !== null;
  return [
    [byArea ? 'ha' : 'm³', 'Share', 'at most'],
    ...curve.map((c) => [
      byArea ? landArea(c.budget) : formatDigits(c.budget, 3),
      percent(c.share),
      percent(c.bound_share),
    ]),
  ];
}

function orderOf({ candidates, pairs }: AreasFile): AreasRead['order'] {
  const most = (area: NamedArea): number => area.mussels?.estimate ?? 0;
  const ordered = [...candidates].sort((a, b) => most(b) - most(a));
  return ordered.slice(1).map((next, i) => {
    const { name } = ordered[i];
    const pair = pairs.find((p) => p.first === name && p.second === next.name);
    const other = pairs.find((p) => p.first === next.name && p.second === name);
    const chance = pair?.chance ?? (other?.chance == null ? null : 1 - other.chance);
    return [`${name} more than ${next.name}`, chance === null ? NONE : chanceText(chance)];
  });
}

/** A computed chance is never certain. */
const chanceText = (p: number): string => (p > 0.99 ? 'over 99 %' : probabilityText(p));

function sheetOf(
  area: NamedArea | Proposal,
  { layer_m }: AreaRequest,
  draw: (polygons: readonly LngLatPolygon[]) => AreaPicture,
): AreaSheet {
  const corners = cornersOf(area);
  const listed = corners.slice(0, MOST_CORNERS);
  return {
    name: area.name,
    facts: [...sizeFacts(area, layer_m), ...musselFacts(area)],
    outside: area.outside.map((o) => `${formatArea(o.area_m2)}: ${exclusionWords(o.reason)}`),
    picture: draw(area.polygons),
    corners: listed,
    more:
      listed.length < corners.length
        ? `${formatCount(corners.length - listed.length)} more corners stand in ${IN_FILES}.`
        : null,
  };
}

function sizeFacts(area: AreaNumbers, layerM: number | null): [string, string][] {
  const acreFeet = (m3: number) =>
    `${formatDigits(m3, 3)} m³ (${formatDigits(m3 / M3_PER_ACRE_FOOT, 3)} acre-feet)`;
  const facts: [string, string][] = [
    ['Water', `${landArea(area.water_m2)} ha (${landArea(area.water_m2, 'imperial')} acres)`],
    ['Volume, whole column', acreFeet(area.volume_m3)],
  ];
  if (layerM !== null && area.layer_m3 !== null)
    facts.push([
      `Volume, ${formatDepth(layerM)} at the surface or over the bed`,
      acreFeet(area.layer_m3),
    ]);
  if (area.mean_depth_m !== null) facts.push(['Mean depth', formatDepth(area.mean_depth_m)]);
  if (area.greatest_depth_m !== null)
    facts.push([label('greatestDepth'), formatDepth(area.greatest_depth_m)]);
  if (area.depth_unmapped_m2 >= 1)
    facts.push(['Depth not mapped, in no volume', formatArea(area.depth_unmapped_m2)]);
  if (area.off_lake_m2 >= 1) facts.push(['Outside of the lake', formatArea(area.off_lake_m2)]);
  return facts;
}

function musselFacts(area: AreaNumbers): [string, string][] {
  const facts: [string, string][] = [
    [label('surveyedHabitat'), formatArea(area.surveyed_m2)],
    [
      label('searchedArea'),
      area.searched_share === null
        ? formatArea(area.searched_m2)
        : `${formatArea(area.searched_m2)}, ${percent(area.searched_share)} of its water`,
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

function cornersOf({ polygons }: Pick<NamedArea, 'polygons'>): Corner[] {
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
