/** What was measured beside the mussels, and what was estimated from their counts: rows of measurementorfact.csv. */

import type { Quantity } from '../../../shared/estimate.ts';
import { gloss, term, terms } from '../../../shared/glossary.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { isEndRow } from '../../../shared/rope.ts';
import type { HabitatRow } from '../../../shared/survey.ts';
import { formatPercent } from '../../../shared/units.ts';
import { VERSION } from '../../../shared/version.ts';
import type { Cell } from '../csv.ts';
import { tidy } from '../numbers.ts';
import type { MEASUREMENTS } from './darwin-terms.ts';
import type { EventNode, TransectEvent } from './events.ts';

type Row = Partial<Record<(typeof MEASUREMENTS)['columns'][number], Cell>>;

export function measurementRows(result: SurveyResult, events: readonly EventNode[]): Row[] {
  return events.flatMap((event) => {
    if (event.kind === 'survey') return estimateRows(result, event.id);
    return event.kind === 'transect' ? transectRows(result, event) : [];
  });
}

/** Substrate, plant cover and depth where each habitat begins, as the sheet has them; and how far one could see. */
function transectRows({ survey }: SurveyResult, { id, placed }: TransectEvent): Row[] {
  const { transect, lengthM, clarityM } = placed.transect;
  const own = survey.habitat.filter((h) => h.transect === transect);
  const rows = own.flatMap((habitat, i): Row[] => {
    const next = own[i + 1]?.distanceM ?? lengthM;
    return habitatRows(habitat, next, lengthM).map(({ what, ...rest }) => ({
      eventID: id,
      measurementID: `${id}:habitat-${i + 1}:${what.replaceAll(' ', '-')}`,
      measurementType: what,
      ...rest,
    }));
  });
  if (clarityM === null) return rows;
  return [
    ...rows,
    {
      eventID: id,
      measurementID: `${id}:visibility`,
      measurementType: term('visibility'),
      measurementValue: clarityM,
      measurementUnit: 'm',
      measurementMethod: `farthest mark on the ${term('rope')} that could be read`,
    },
  ];
}

function habitatRows(
  habitat: HabitatRow,
  nextM: number,
  lengthM: number,
): (Row & { what: string })[] {
  const { distanceM, substrate, plantCover, depthM } = habitat;
  const stretch = `from ${tidy(distanceM)} to ${tidy(nextM)} m along the ${term('transect')}`;
  const depth = {
    what: term('depth'),
    measurementValue: depthM,
    measurementUnit: 'm',
    measurementRemarks: `at ${tidy(distanceM)} m along the ${term('transect')}`,
  };
  if (isEndRow(distanceM, lengthM)) return [depth];
  return [
    depth,
    ...(substrate === null
      ? []
      : [
          {
            what: term('substrate'),
            measurementValue: substrate.join('+'),
            measurementMethod: 'class seen by the observer, the dominant one first',
            measurementRemarks: stretch,
          },
        ]),
    ...(plantCover === null
      ? []
      : [
          {
            what: term('plantCover'),
            measurementValue: plantCover,
            measurementMethod: `score: ${gloss('plantCover')}`,
            measurementRemarks: stretch,
          },
        ]),
  ];
}

/** Numbers of the whole surveyed habitat, marked as estimates; those that do not exist are left out. */
function estimateRows({ estimate, analysis, domain }: SurveyResult, id: string): Row[] {
  const { abundance } = estimate;
  if (abundance === null) return [];
  const level = formatPercent(analysis.interval);
  const row = (what: string, unit: string, q: Quantity | null): Row[] =>
    q === null
      ? []
      : [
          {
            eventID: id,
            measurementID: `${id}:estimate:${unit}`,
            measurementType: `estimated ${term('abundance')} of ${what}`,
            measurementValue: tidy(q.estimate),
            measurementAccuracy: accuracy(q, level),
            measurementUnit: unit,
            measurementMethod: `An estimate, not a count: a model of ${term('density')} with ${term('detectionProbability')} in one likelihood, carried to the mapped bed (Shoalwise ${VERSION})`,
            measurementRemarks: `on ${tidy(abundance.area_m2)} m² of ${term('surveyedHabitat')}, ${tidy(domain.depthFromM)} to ${tidy(domain.depthToM)} m deep`,
          },
        ];
  return [
    ...row(terms('mussel'), 'individuals', abundance.mussels),
    ...row(terms('cluster'), 'clusters', abundance.clusters),
  ];
}

function accuracy({ se, lower, upper }: Quantity, level: string): string {
  const parts = [
    ...(se === null ? [] : [`${term('se')} ${tidy(se)}`]),
    ...(lower === null || upper === null
      ? []
      : [`${level} ${term('ci')} ${tidy(lower)} to ${tidy(upper)}`]),
  ];
  return parts.join('; ');
}
