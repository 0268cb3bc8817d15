/** The survey as nested events: itself, its transects, and the pass of each observer along a transect. */

import { extent } from '../../../shared/extent.ts';
import { term, terms } from '../../../shared/glossary.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import type { PlacedTransect, Role } from '../../../shared/survey.ts';

interface AnyEvent {
  id: string;
  /** a day, or two with a slash between */
  date: string;
  /** null where none was recorded */
  depths: { fromM: number; toM: number } | null;
  /** labels that were recorded, in the order in which they are met */
  substrates: string[];
  /** bed searched, and the same for each observer who searched it */
  searchedM2: number;
  effortM2: number;
  /** null = not recorded */
  minutes: number | null;
  observers: string[];
  protocolName: string;
  protocol: string;
  /** whether a cluster was detected on it, by whichever observer */
  detected: boolean;
}

export interface SurveyEvent extends AnyEvent {
  kind: 'survey';
  transects: number;
}

export interface TransectEvent extends AnyEvent {
  kind: 'transect';
  parent: string;
  placed: PlacedTransect;
}

export interface PassEvent extends AnyEvent {
  kind: 'pass';
  parent: string;
  placed: PlacedTransect;
  role: Role;
  /** indices in Survey.detections */
  detections: number[];
}

export type EventNode = SurveyEvent | TransectEvent | PassEvent;

const BELT = {
  name: term('beltTransect'),
  protocol: `A strip of the lake bed is searched whole by divers, and each ${term('cluster')} of ${terms('mussel')} in it is counted.`,
};
const DISTANCE = {
  name: term('distanceTransect'),
  protocol: `Divers search to both sides of a line on the lake bed, count each ${term('cluster')} of ${terms('mussel')} and measure its ${term('perpendicularDistance')} from the line.`,
};
const PRIMARY = ` The ${term('primaryObserver')} searches first and marks each ${term('cluster')}.`;
const SECONDARY = ` The ${term('secondaryObserver')} follows and records only ${terms('cluster')} that the ${term('primaryObserver')} has missed: nothing recorded here does not mean that nothing is there.`;
const SINGLE = ' One observer searched, nobody followed.';

/** @param dataset begins every identifier */
export function eventsOf(result: SurveyResult, dataset: string): EventNode[] {
  const { survey, segments, placed } = result;
  const days = survey.transects.map((t) => t.date).sort();
  const root = `${dataset}:${days[0] ?? ''}`;
  const nested = placed.map((p) => transectEvents(p, result, root));
  const transects = nested.map(([transect]) => transect);
  const designs = new Set(survey.transects.map((t) => t.design));
  const told = [
    ...(designs.has('belt') ? [BELT] : []),
    ...(designs.has('distance') ? [DISTANCE] : []),
  ];
  const sum = (of: (e: TransectEvent) => number): number =>
    transects.reduce((total, event) => total + of(event), 0);
  const followed = survey.transects.some((t) => t.secondary !== null);
  const unknown = transects.some(({ minutes }) => minutes === null);
  const whole: SurveyEvent = {
    kind: 'survey',
    id: root,
    date: [...new Set([days[0], days.at(-1)])].join('/'),
    depths: bandOf(survey.habitat.map((h) => h.depthM)),
    substrates: [...new Set(segments.map((s) => s.substrate.join('+')))],
    searchedM2: sum((e) => e.searchedM2),
    effortM2: sum((e) => e.effortM2),
    minutes: unknown ? null : sum((e) => e.minutes ?? 0),
    observers: [...new Set(transects.flatMap((e) => e.observers))],
    protocolName: told.map(({ name }) => name).join(' | '),
    protocol: told
      .map(({ protocol }) => `${protocol}${followed ? PRIMARY + SECONDARY : SINGLE}`)
      .join(' | '),
    detected: survey.detections.length > 0,
    transects: transects.length,
  };
  return [whole, ...nested.flat()];
}

function transectEvents(
  placed: PlacedTransect,
  { survey, segments }: SurveyResult,
  root: string,
): [TransectEvent, ...PassEvent[]] {
  const t = placed.transect;
  const own = segments.filter((s) => s.transect === t.transect);
  const searchedM2 = own.reduce((total, s) => total + s.areaM2, 0);
  const { name, protocol } = t.design === 'belt' ? BELT : DISTANCE;
  const observers = [t.primary, ...(t.secondary === null ? [] : [t.secondary])];
  const found = survey.detections.flatMap((d, i) => (d.transect === t.transect ? [i] : []));
  const id = `${root}:${t.transect}`;
  const all = {
    date: t.date,
    depths: bandOf(survey.habitat.filter((h) => h.transect === t.transect).map((h) => h.depthM)),
    substrates: [...new Set(own.map((s) => s.substrate.join('+')))],
    searchedM2,
    protocolName: name,
    placed,
    detected: found.length > 0,
  };
  const pass = (role: Role, observer: string): PassEvent => ({
    ...all,
    kind: 'pass',
    id: `${id}:${role}`,
    parent: id,
    effortM2: searchedM2,
    minutes: null, // what is recorded is the time of both
    observers: [observer],
    protocol: `${protocol}${t.secondary === null ? SINGLE : role === 'primary' ? PRIMARY : SECONDARY}`,
    role,
    detections: found.filter((i) => survey.detections[i].role === role),
  });
  return [
    {
      ...all,
      kind: 'transect',
      id,
      parent: root,
      effortM2: searchedM2 * observers.length,
      minutes: t.searchMin,
      observers,
      protocol: `${protocol}${t.secondary === null ? SINGLE : PRIMARY + SECONDARY}`,
    },
    pass('primary', t.primary),
    ...(t.secondary === null ? [] : [pass('secondary', t.secondary)]),
  ];
}

function bandOf(depths: readonly number[]): AnyEvent['depths'] {
  if (depths.length === 0) return null;
  const [fromM, toM] = extent(depths);
  return { fromM, toM };
}
