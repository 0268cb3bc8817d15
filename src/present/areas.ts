/** What treatment areas hold, in words and figures: for page and terminal, and for the sheets that go on the boat. */

import type { AreasHeld, NamedArea } from '../../shared/areas.ts';
import { term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { LngLatPolygon } from '../../shared/survey.ts';
import { formatArea, formatCount, formatDepthBand, type UnitSystem } from '../../shared/units.ts';
import {
  type AreaRow,
  areaFacts,
  areaRow,
  type Corner,
  cornersOf,
  outsideLines,
  sharePercent,
} from './area-facts.ts';
import { type AreaPicture, areaPictures, areasPicture } from './area-picture.ts';
import {
  ciName,
  NONE,
  probabilityText,
  quantityCells,
  quantityInFull,
  quantityInShort,
} from './quantity.ts';

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

/** The lake that areas are drawn on. */
export type AreaLake = Pick<SurveyResult, 'lake' | 'plane'>;

export interface HeldRead {
  lake: string;
  ciName: string;
  /** what all areas hold together, to be read first; null without candidates */
  answer: string | null;
  /** the number that shares are taken of */
  opening: string;
  candidates: AreaRow[];
  /** null without candidates */
  leftOut: string | null;
  /** candidates by their mussels, each with the chance that it holds more than the next one: `Island more than Middle reef`, `99 %` */
  order: [pair: string, chance: string][];
}

/** More corners than these stand in the files alone. */
const MOST_CORNERS = 60;
const IN_FILES = 'areas.gpx, areas.kml and areas.geojson';

export function readHeld(held: AreasHeld, units: UnitSystem = 'metric'): HeldRead {
  const { total, candidates, interval } = held;
  const band = formatDepthBand(held.depth_from_m, held.depth_to_m, units);
  return {
    lake: held.lake,
    ciName: ciName(interval),
    answer: candidates.length === 0 ? null : areasOpening(held, units).sentence.join(''),
    opening: `Shares are of ${quantityInFull(total.mussels, terms('mussel'), interval)} on ${formatArea(total.surveyed_m2, units)} of ${term('surveyedHabitat')}, ${band} deep.`,
    candidates: candidates.map((area) => areaRow(area, units)),
    leftOut: leftOutOf(held, units),
    order: orderOf(held),
  };
}

/** Where they lie: candidates by their edges, what is proposed filled. Null where there is none of either. */
export function areasOverview(
  candidates: readonly NamedArea[],
  proposed: NamedArea | null,
  lake: AreaLake,
): AreaPicture | null {
  if (candidates.length === 0 && proposed === null) return null;
  return areasPicture(lake, candidates, proposed === null ? [] : [proposed]);
}

/** A page an area. */
export function areaSheets(
  areas: readonly NamedArea[],
  layerM: number | null,
  lake: AreaLake,
): AreaSheet[] {
  const draw = areaPictures(lake);
  return areas.map((area) => sheetOf(area, layerM, draw));
}

function leftOutOf({ left_out }: AreasHeld, units: UnitSystem): string | null {
  if (left_out === null) return null;
  const { mussels, surveyed_m2, share } = left_out;
  const of = share === null ? '' : `, ${sharePercent(share.share)} of them all`;
  return `Outside of all of them: ${quantityInShort(mussels, terms('mussel'))}${of}, on ${formatArea(surveyed_m2, units)} of ${term('surveyedHabitat')}.`;
}

function orderOf({ candidates, pairs }: AreasHeld): HeldRead['order'] {
  const most = (area: NamedArea): number => area.mussels?.estimate ?? 0;
  const ordered = [...candidates].sort((a, b) => most(b) - most(a));
  return ordered.slice(1).map((next, i) => {
    const { name } = ordered[i];
    const pair = pairs.find((p) => p.first === name && p.second === next.name);
    const other = pairs.find((p) => p.first === next.name && p.second === name);
    const chance = pair?.chance ?? (other?.chance == null ? null : 1 - other.chance);
    return [`${name} more than ${next.name}`, chanceText(chance)];
  });
}

export interface Comparison {
  /** `Stony Bay more than` */
  head: string;
  rows: { name: string; mussels: [string, string]; chance: string }[];
}

/** One of the areas against each other one: the chance that it holds more. Null where it is the only one. */
export function compareArea({ candidates, pairs }: AreasHeld, which: number): Comparison | null {
  const own = candidates[which];
  if (own === undefined || candidates.length < 2) return null;
  const chanceOver = (other: number): number | null => {
    const chance = pairs[pairIndex(candidates.length, which, other)]?.chance ?? null;
    return chance === null || which < other ? chance : 1 - chance;
  };
  return {
    head: `${own.name} holds more`,
    rows: candidates.flatMap((area, i) =>
      i === which
        ? []
        : [
            {
              name: area.name,
              mussels: quantityCells(area.mussels),
              chance: chanceText(chanceOver(i)),
            },
          ],
    ),
  };
}

/** Pairs stand in the order first with second, first with third, … */
function pairIndex(n: number, i: number, k: number): number {
  const [a, b] = i < k ? [i, k] : [k, i];
  return a * n - (a * (a + 1)) / 2 + (b - a - 1);
}

/** The station's opening: what all areas hold together, and what lives outside of them. */
export interface AreasOpening {
  sentence: [before: string, strong: string, after: string];
  lead: string;
}

export function areasOpening(held: AreasHeld, units: UnitSystem = 'metric'): AreasOpening {
  const { candidates, left_out: left, total } = held;
  if (left === null)
    return {
      sentence: ['There is ', `no ${term('treatmentArea')}`, ' yet.'],
      lead: 'Draw one on the map, or have areas proposed for a budget.',
    };
  const one = candidates.length === 1;
  const many = `${candidates.length} ${one ? term('treatmentArea') : terms('treatmentArea')}`;
  const on = `on ${formatArea(total.surveyed_m2 - left.surveyed_m2, units)} of ${term('surveyedHabitat')}.`;
  const { share } = left;
  const limits =
    share === null || share.lower === null || share.upper === null
      ? ''
      : ` (${ciName(held.interval)} ${sharePercent(1 - share.upper)} to ${sharePercent(1 - share.lower)})`;
  return {
    sentence:
      share === null
        ? ['', many, `, ${on}`]
        : [
            `${many} ${one ? 'holds' : 'hold'} about `,
            sharePercent(1 - share.share),
            ` of the ${terms('mussel')}${limits}, ${on}`,
          ],
    lead: `Outside of ${one ? 'it' : 'them'}: ${quantityInShort(left.mussels, terms('mussel'))}.`,
  };
}

/** A computed chance is never certain, nor never; a dash where there is none. */
function chanceText(p: number | null): string {
  if (p === null) return NONE;
  if (p < 0.01) return 'under 1 %';
  return p > 0.99 ? 'over 99 %' : probabilityText(p);
}

function sheetOf(
  area: NamedArea,
  layerM: number | null,
  draw: (polygons: readonly LngLatPolygon[]) => AreaPicture,
): AreaSheet {
  const corners = cornersOf(area);
  const listed = corners.slice(0, MOST_CORNERS);
  return {
    name: area.name,
    facts: areaFacts(area, layerM),
    outside: outsideLines(area),
    picture: draw(area.polygons),
    corners: listed,
    more:
      listed.length < corners.length
        ? `${formatCount(corners.length - listed.length)} more corners stand in ${IN_FILES}.`
        : null,
  };
}
