/** The transects of a survey in words and rows, before any estimate: what was searched, where, by whom. */

import { extent } from '../../shared/extent.ts';
import { capital, counted, label, labels, term } from '../../shared/glossary.ts';
import type { PlacedTransect, Segment, Survey } from '../../shared/survey.ts';
import {
  formatArea,
  formatCount,
  formatDepthBand,
  formatLength,
  type UnitSystem,
} from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { searched } from './searched.ts';

type SearchedSegment = Pick<Segment, 'transect' | 'areaM2'>;

/** The first words on the transects: a sentence, and what follows it. */
export function transectsOpening(
  survey: Survey,
  segments: readonly SearchedSegment[],
  units: UnitSystem = 'metric',
): { sentence: string; lead: string } {
  const facts = searched(survey, segments);
  const { depths, clusters, mussels, empty } = facts;
  const where =
    depths === null ? '' : ` from ${formatDepthBand(depths.fromM, depths.toM, units)} deep`;
  const detected =
    clusters === 0
      ? ', searched, nothing detected.'
      : `, and ${counted(clusters, formatCount(clusters), 'cluster')} detected on them.`;
  const held =
    clusters === 0
      ? ''
      : ` The clusters held ${counted(mussels, formatCount(mussels), 'mussel')}${
          empty === 0
            ? ''
            : `; on ${counted(empty, formatCount(empty), 'transect')} nothing was detected`
        }.`;
  return {
    sentence: `${counted(facts.transects, formatCount(facts.transects), 'transect')}${where}${detected}`,
    lead: `${formatLength(facts.lengthM, 3, units)} in length together, a searched area of ${formatArea(facts.areaM2, units)}.${held}`,
  };
}

/** Of the transects that are written down, those that could not be placed; null when all could. */
export function unplacedSentence(written: number, placed: number): string | null {
  const left = written - placed;
  if (left <= 0) return null;
  return `${capital(counted(left, left === 1 ? 'one' : formatCount(left), 'transect'))} could not be placed and ${left === 1 ? 'is' : 'are'} not drawn; the errors are listed at the Survey station.`;
}

export const NONE_PLACED = {
  sentence: 'No transect could be placed yet.',
  why: 'The tables have errors that hide where the transects lay.',
  way: 'Fix them at the Survey station',
};

export const NONE_SEARCHED = `No ${term('transect')} was searched yet.`;

export interface TransectRow {
  transect: string;
  /** as in the files, safe to show */
  name: string;
  observers: string;
  depths: string;
  area: string;
  clusters: string;
  mussels: string;
  /** waypoints, bearing and length disagree beyond what chance explains */
  flagged: boolean;
}

export interface TransectTable {
  title: string;
  columns: Record<'transect' | 'observers' | 'depth' | 'area' | 'clusters' | 'mussels', string>;
  /** one a placed transect, in the order of the survey */
  rows: TransectRow[];
  /** said beside the sign of a flagged row */
  flag: string;
  /** what the sign means; null when no row is flagged */
  note: string | null;
}

export function transectTable(
  placed: readonly PlacedTransect[],
  segments: readonly SearchedSegment[],
  survey: Survey,
  units: UnitSystem = 'metric',
): TransectTable {
  const rows = placed.map(({ transect: t, profile, residuals }): TransectRow => {
    const own = survey.detections.filter((d) => d.transect === t.transect);
    const areaM2 = sum(segments.filter((s) => s.transect === t.transect).map((s) => s.areaM2));
    return {
      transect: t.transect,
      name: visible(t.transect),
      observers: [t.primary, ...(t.secondary === null ? [] : [t.secondary])]
        .map(visible)
        .join(', '),
      depths: formatDepthBand(...extent(profile.depthM), units),
      area: formatArea(areaM2, units),
      clusters: formatCount(own.length),
      mussels: formatCount(sum(own.map((d) => d.count))),
      flagged: residuals.some((r) => r.flagged),
    };
  });
  const flagged = rows.filter((r) => r.flagged).length;
  return {
    title: labels('transect'),
    columns: {
      transect: label('transect'),
      observers: labels('observer'),
      depth: label('depth'),
      area: label('searchedArea'),
      clusters: labels('cluster'),
      mussels: labels('mussel'),
    },
    rows,
    flag: 'position in doubt',
    note:
      flagged === 0
        ? null
        : `Waypoints, bearing and length of ${counted(flagged, flagged === 1 ? 'one' : formatCount(flagged), 'transect')} disagree by more than three standard errors; the map draws where they were pulled to.`,
  };
}

/** `2026-06-29 · belt, 1 m wide · Ines, then Tomas` */
export function transectHead(
  { transect: t }: PlacedTransect,
  units: UnitSystem = 'metric',
): string {
  const who =
    t.secondary === null
      ? visible(t.primary)
      : `${visible(t.primary)}, then ${visible(t.secondary)}`;
  return `${t.date} · ${t.design}, ${formatLength(t.widthM, 3, units)} wide · ${who}`;
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
