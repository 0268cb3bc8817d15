/** Candidate treatment areas side by side. */

import type { AreasHeld } from '../../shared/areas.ts';
import type { TreatmentRow } from '../../shared/estimate.ts';
import { term, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatDigits, landArea, landAreaUnit, type UnitSystem } from '../../shared/units.ts';
import { shareCells, waterCells } from './area-facts.ts';
import { readHeld } from './areas.ts';
import { NONE, quantityCells } from './quantity.ts';
import { shareOf } from './strata.ts';

/** In place of a number, beside how many there can be. */
const NONE_DETECTED = 'none detected';

export interface TreatmentArea {
  name: string;
  /** within the surveyed habitat, without its unit */
  area: string;
  acres: string;
  /** the rest of the area; null where there is none */
  outside: string | null;
  /** estimate and interval; where nothing was detected, how many clusters there can be */
  mussels: [estimate: string, interval: string];
  /** of the mussels on all of the surveyed habitat; a dash where that is not known */
  share: string;
}

export interface TreatmentAreas {
  rows: TreatmentArea[];
  /** what the columns mean */
  note: string;
}

/** Null when the survey has none, or no map of the lake. */
export function treatmentAreas(
  { estimate }: Pick<SurveyResult, 'estimate'>,
  units: UnitSystem = 'metric',
): TreatmentAreas | null {
  const { treatments, abundance } = estimate;
  if (treatments === null || treatments.length === 0) return null;
  const total = abundance?.mussels?.estimate ?? 0;
  const share = ({ mussels }: TreatmentRow): string =>
    mussels === null || !(total > 0) ? NONE : shareOf(mussels.estimate / total).text;
  const rest = treatments.some((t) => t.outside_area_m2 > 0);
  return {
    rows: treatments.map((t) => ({
      name: t.name,
      area: landArea(t.area_m2, units),
      acres: landArea(t.area_m2, 'imperial'),
      outside: t.outside_area_m2 > 0 ? landArea(t.outside_area_m2, units) : null,
      mussels: musselCells(t),
      share: share(t),
    })),
    note: `Share: of the mussels on all of the ${term('surveyedHabitat')}.${
      rest
        ? ` Outside: bed of the area that is ${term('outsideHabitat')}; its mussels are not counted here.`
        : ''
    }`,
  };
}

/** The same areas with what only their joint numbers tell. */
export interface TogetherRead {
  /** limits of each area's share, in the order of the rows */
  shareLimits: string[];
  /** the water of each: name, then ha, acres, mean and greatest depth, m³, acre-feet, share searched */
  water: string[][];
  leftOut: string | null;
  /** areas by their mussels, each with the chance that it holds more than the next one */
  order: [pair: string, chance: string][];
}

/** Null where nothing is known of them together, or of other areas than the rows are. */
export function areasTogether(
  held: AreasHeld | null,
  { rows }: TreatmentAreas,
): TogetherRead | null {
  if (held === null || held.candidates.some((c, i) => c.name !== rows[i]?.name)) return null;
  const { leftOut, order } = readHeld(held);
  return {
    shareLimits: held.candidates.map((c) => shareCells(c.share)[1]),
    water: held.candidates.map((c) => [c.name, ...waterCells(c)]),
    leftOut,
    order,
  };
}

/** One area as an object on the map. */
export interface TreatmentCard {
  title: string;
  lines: string[];
}

/** @param area its place in the file; null where the estimate has no such area */
export function treatmentCard(
  result: Pick<SurveyResult, 'estimate'>,
  area: number,
  units: UnitSystem,
): TreatmentCard | null {
  const row = treatmentAreas(result, units)?.rows[area];
  if (row === undefined) return null;
  const unit = landAreaUnit(units);
  const [estimate, interval] = row.mussels;
  const range = interval === NONE ? '' : ` (${interval})`;
  const mussels =
    estimate === NONE_DETECTED ? `${estimate}${range}` : `${estimate} ${terms('mussel')}${range}`;
  return {
    title: row.name,
    lines: [
      estimate === NONE ? 'No number of mussels is known here.' : mussels,
      ...(row.share === NONE ? [] : [`${row.share} of those on the ${term('surveyedHabitat')}`]),
      `${row.area} ${unit} of ${term('surveyedHabitat')}`,
      ...(row.outside === null ? [] : [`${row.outside} ${unit} outside of it, not counted`]),
    ],
  };
}

function musselCells({ mussels, clusters }: TreatmentRow): [string, string] {
  const upper = clusters?.upper ?? null;
  if (mussels !== null && mussels.estimate === 0 && mussels.upper === null && upper !== null)
    return [NONE_DETECTED, `up to ${formatDigits(upper, 2)} ${terms('cluster')}`];
  return quantityCells(mussels);
}
