/** What is said of a transect in section: the picture in a sentence, its marks, and the same in two tables. */

import { capital, counted, label, labels, term, terms } from '../../shared/glossary.ts';
import type { Role } from '../../shared/survey.ts';
import { formatCount, formatDepth, formatLength, type UnitSystem } from '../../shared/units.ts';
import { listed, visible } from '../../shared/words.ts';
import { NONE } from './quantity.ts';
import type { Section, SectionCluster } from './section.ts';

/** A table ready to be drawn: cells in the order of the columns. */
export interface SectionTable {
  caption: string;
  columns: { title: string; number: boolean }[];
  rows: { key: string; cells: string[] }[];
  /** said in place of rows; null where there are always some */
  empty: string | null;
}

export interface SectionWords {
  title: string;
  /** the picture in sentences, for those who do not see it */
  described: string;
  bed: SectionTable;
  clusters: SectionTable;
}

export function sectionWords(section: Section, units: UnitSystem = 'metric'): SectionWords {
  const transect = visible(section.transect);
  return {
    title: `${transect} in section`,
    described: describedOf(section, units),
    bed: bedTable(section, units),
    clusters: clusterTable(section, units),
  };
}

function describedOf(section: Section, units: UnitSystem): string {
  const { bed, stretches, lengthM } = section;
  const depthAt = (point: Section['bed'][number] | undefined): string =>
    point === undefined ? NONE : formatDepth(point.depthM, units);
  const along = stretches.map(
    ({ label: on, fromM, toM }) =>
      `${on} from ${formatLength(fromM, 4, units)} to ${formatLength(toM, 4, units)}`,
  );
  return [
    `Cross-section of ${visible(section.transect)}: the bed at ${depthAt(bed.at(0))} at its start and ${depthAt(bed.at(-1))} at its end, ${formatLength(lengthM, 4, units)} along the ${term('rope')}; ${listed(along, 'and')}.`,
    detectedAlong(section, units),
  ].join(' ');
}

/** `2 clusters with 8 mussels were detected: 1 by Ada, primary observer, 1 by Ben, secondary observer; the largest has 4, at 2.5 m.` */
function detectedAlong({ clusters }: Section, units: UnitSystem): string {
  const n = clusters.length;
  const [first] = clusters;
  if (first === undefined) return 'Nothing was detected along it.';
  const mussels = clusters.reduce((sum, c) => sum + c.count, 0);
  const largest = clusters.reduce((most, c) => (c.count > most.count ? c : most), first);
  const by = (['primary', 'secondary'] as const).flatMap((role) =>
    observerIn(clusters, role).map(
      ({ text }) => `${formatCount(clusters.filter((c) => c.role === role).length)} by ${text}`,
    ),
  );
  return `${counted(n, formatCount(n), 'cluster')} with ${counted(mussels, formatCount(mussels), 'mussel')} ${n === 1 ? 'was' : 'were'} detected: ${by.join(', ')}; the largest has ${formatCount(largest.count)}, at ${formatLength(largest.distanceM, 4, units)}.`;
}

function bedTable({ stretches }: Section, units: UnitSystem): SectionTable {
  const depth = (m: number | undefined): string => (m === undefined ? NONE : formatDepth(m, units));
  return {
    caption: `Bed along the ${term('transect')}`,
    columns: [
      { title: 'From', number: false },
      { title: 'To', number: true },
      { title: label('substrate'), number: false },
      { title: `${label('depth')} there`, number: true },
      { title: `${label('depth')} at its end`, number: true },
    ],
    rows: stretches.map((s) => ({
      key: String(s.fromM),
      cells: [
        formatLength(s.fromM, 4, units),
        formatLength(s.toM, 4, units),
        s.label,
        depth(s.points[0]?.depthM),
        depth(s.points.at(-1)?.depthM),
      ],
    })),
    empty: null,
  };
}

function clusterTable({ clusters }: Section, units: UnitSystem): SectionTable {
  return {
    caption: `${capital(terms('detectedCluster'))} along the ${term('transect')}`,
    columns: [
      { title: 'At', number: false },
      { title: label('perpendicularDistance'), number: true },
      { title: label('depth'), number: true },
      { title: labels('mussel'), number: true },
      { title: label('observer'), number: false },
    ],
    rows: clusters.map((c) => ({
      key: String(c.detection),
      cells: [
        formatLength(c.distanceM, 4, units),
        c.offsetM === null ? NONE : formatLength(c.offsetM, 2, units),
        formatDepth(c.depthM, units),
        formatCount(c.count),
        `${visible(c.observer)}, ${c.role}`,
      ],
    })),
    empty: 'Nothing was detected.',
  };
}

export interface SectionKey {
  /** who detected clusters here, in which role; the primary observer first */
  observers: { observer: string; role: Role; text: string }[];
  /** the largest cluster here, to be shown beside one of 1; null when there are single mussels only */
  sizes: { most: number; text: string } | null;
  plants: string | null;
  scale: string;
}

/** @param exaggerated how many times larger depth is drawn than length */
export function sectionKey(section: Section, exaggerated: number): SectionKey {
  const { clusters, plants, markStepM } = section;
  const most = clusters.reduce((a, c) => Math.max(a, c.count), 0);
  return {
    observers: (['primary', 'secondary'] as const).flatMap((role) => observerIn(clusters, role)),
    sizes: most > 1 ? { most, text: `1 and ${formatCount(most)} in a ${term('cluster')}` } : null,
    plants: plants.length === 0 ? null : 'plants, a stem for each point of cover',
    scale: `${exaggerationWords(exaggerated)}; marks on the ${term('rope')} every ${markStepM} m`,
  };
}

function observerIn(clusters: readonly SectionCluster[], role: Role): SectionKey['observers'] {
  const first = clusters.find((c) => c.role === role);
  if (first === undefined) return [];
  const name = term(role === 'primary' ? 'primaryObserver' : 'secondaryObserver');
  return [{ observer: first.observer, role, text: `${visible(first.observer)}, ${name}` }];
}

/** `depth drawn 3 times as large as length` */
export function exaggerationWords(times: number): string {
  if (times === 1) return 'depth and length drawn alike';
  return times > 1
    ? `depth drawn ${times} times as large as length`
    : `length drawn ${Number((1 / times).toFixed(1))} times as large as depth`;
}
