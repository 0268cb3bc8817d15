/** What was searched: the facts of a survey before any estimate, for report, terminal and page. */

import { counted, label, labels, type TermId, term } from '../../shared/glossary.ts';
import type { Domain, Segment, Survey } from '../../shared/survey.ts';
import { formatArea, formatCount, formatDepthBand, type UnitSystem } from '../../shared/units.ts';
import { sampledBand } from './depths.ts';

export interface Searched {
  transects: number;
  belts: number;
  distances: number;
  /** sum of the transects' lengths along the rope, m */
  lengthM: number;
  areaM2: number;
  segments: number;
  /** least and greatest recorded depth; null when none was recorded */
  depths: { fromM: number; toM: number } | null;
  clusters: number;
  mussels: number;
  /** transects on which nothing was detected */
  empty: number;
  /** transects without a secondary observer */
  single: number;
  /** transects that ended at the thermocline */
  thermocline: number;
  /** distinct, in order */
  days: string[];
}

export function searched(survey: Survey, segments: readonly Pick<Segment, 'areaM2'>[]): Searched {
  const { transects, detections } = survey;
  const withDetections = new Set(detections.map((d) => d.transect));
  const count = (of: (t: Survey['transects'][number]) => boolean) => transects.filter(of).length;
  const belts = count((t) => t.design === 'belt');
  return {
    transects: transects.length,
    belts,
    distances: transects.length - belts,
    lengthM: transects.reduce((sum, t) => sum + t.lengthM, 0),
    areaM2: segments.reduce((sum, s) => sum + s.areaM2, 0),
    segments: segments.length,
    depths: sampledBand(survey),
    clusters: detections.length,
    mussels: detections.reduce((sum, d) => sum + d.count, 0),
    empty: count((t) => !withDetections.has(t.transect)),
    single: count((t) => t.secondary === null),
    thermocline: count((t) => t.stop === 'thermocline'),
    days: [...new Set(transects.map((t) => t.date))].sort(),
  };
}

/** Name and value of each fact, in the order in which they are read. */
export function searchedList(
  facts: Searched,
  domain: Pick<Domain, 'classes'>,
  units: UnitSystem = 'metric',
): [name: string, value: string][] {
  const { transects, depths } = facts;
  return [
    [labels('transect'), `${formatCount(transects)} (${designWords(facts)})`],
    ...few(facts.single, `Without a ${term('secondaryObserver')}`, transects),
    ['Days', daysInFull(facts.days)],
    [label('searchedArea'), formatArea(facts.areaM2, units)],
    ['Depths sampled', depths === null ? 'none' : formatDepthBand(depths.fromM, depths.toM, units)],
    [labels('segment'), formatCount(facts.segments)],
    [labels('detectedCluster'), formatCount(facts.clusters)],
    [`${labels('mussel')} counted`, formatCount(facts.mussels)],
    [`${labels('substrate')} searched`, domain.classes.join(', ')],
    ...few(facts.thermocline, 'Ended at the thermocline', transects),
  ];
}

/** The same in short lines for the terminal. */
export function searchedLines(facts: Searched, units: UnitSystem = 'metric'): string[] {
  const { days, depths } = facts;
  const when =
    days.length === 0
      ? ''
      : days.length === 1
        ? ` on ${days[0]}`
        : ` on ${days.length} days, ${daysInFull(days)}`;
  return [
    `${several(facts.transects, 'transect')} (${designWords(facts)})${when}`,
    `${formatArea(facts.areaM2, units)} of ${term('searchedArea')} in ${several(facts.segments, 'segment')}${
      depths === null ? '' : `, ${formatDepthBand(depths.fromM, depths.toM, units)} deep`
    }`,
    `${several(facts.mussels, 'mussel')} counted in ${several(facts.clusters, 'cluster')}`,
  ];
}

function several(n: number, id: TermId): string {
  return counted(n, formatCount(n), id);
}

function designWords({ belts, distances }: Searched): string {
  return `${belts} ${term('belt')}, ${distances} ${term('distance')}`;
}

/** `2026-07-01 to 2026-07-04`, of days in order */
export function daysInFull(days: readonly string[]): string {
  if (days.length < 2) return days[0] ?? 'none';
  return `${days[0]} to ${days.at(-1)}`;
}

function few(n: number, name: string, of: number): [string, string][] {
  return n === 0 ? [] : [[name, `${formatCount(n)} of ${formatCount(of)}`]];
}
