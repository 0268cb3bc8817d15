/**
 * Errors and notices read once: grouped by kind, counted, put in order. Report, terminal and page show these groups and
 * this count; every one of them stands in warnings.csv.
 */

import { type Finding, findingPlace, rowNoun } from '../../shared/findings.ts';
import { counted, labels } from '../../shared/glossary.ts';
import { formatCount } from '../../shared/units.ts';

/** Places named of those that are like the first. */
const PLACES_NAMED = 5;

/** Errors or notices of one code in one column of one file. */
export interface FindingKind {
  severity: Finding['severity'];
  code: string;
  table: string;
  /** null where the kind is of the whole file, or of columns as such */
  column: string | null;
  /** of the first one: `detections.csv row 67, distance_m` */
  place: string;
  /** of the first one */
  message: string;
  /** how many there are, the first one included */
  count: number;
  /** what stands for all but the first, as of moreLikeIt; null when there is one alone */
  more: string | null;
  /** which of the list that was read they are, ascending */
  indices: readonly number[];
  /** the same ones themselves */
  members: readonly Finding[];
}

/** The notices of a result, for a list under a heading with their number. */
export interface Notices {
  count: number;
  /** `Notices (15)` */
  title: string;
  /** `15 notices` */
  counted: string;
  /** from what touches the whole number to what touches one row */
  kinds: FindingKind[];
}

/** From what changes the whole number to what touches one row. */
const FILE_ORDER = [
  'model',
  'analysis.json',
  'outline.geojson',
  'substrate.geojson',
  'depth.geojson',
  'depth.tif',
  'treatments.geojson',
  'transects.csv',
  'habitat.csv',
  'detections.csv',
  'variants.json',
];

/** The notices among the findings of a result or of a survey that was checked. */
export function readNotices(findings: readonly Finding[]): Notices {
  const kinds = kindsOf(findings).filter(({ severity }) => severity === 'notice');
  const count = kinds.reduce((n, kind) => n + kind.count, 0);
  return {
    count,
    title: `${labels('notice')} (${formatCount(count)})`,
    counted: counted(count, formatCount(count), 'notice'),
    kinds: kinds.sort((a, b) => rank(a.table) - rank(b.table)),
  };
}

/** Errors and notices by kind, in the order in which the first of each comes. */
export function kindsOf(findings: readonly Finding[]): FindingKind[] {
  const kinds = new Map<string, [number, ...number[]]>();
  findings.forEach((finding, index) => {
    const key = keyOf(finding, index);
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, [index]);
    else kind.push(index);
  });
  return [...kinds.values()].map((indices) => kindOf(findings, indices));
}

/**
 * What has no row speaks of a whole file, of a choice or of the model, each time of something else: it is a kind of its
 * own. What is in the header row speaks of a column: those of one file are alike.
 */
function keyOf(f: Finding, index: number): string {
  if (f.row === null) return String(index);
  // a file may have millions: names of files and codes hold no line break, so the parts cannot run together
  return `${f.severity}\n${f.table}\n${f.code}\n${isOfHeader(f) ? '' : (f.column ?? '')}`;
}

function isOfHeader({ table, row, column }: Finding): boolean {
  return row === 1 && column !== null && table.endsWith('.csv');
}

function kindOf(findings: readonly Finding[], indices: readonly number[]): FindingKind {
  const members = indices.flatMap((index) => findings[index] ?? []);
  const [first] = members;
  if (first === undefined) throw new Error('kindOf: got no finding, expected one at least');
  return {
    severity: first.severity,
    code: first.code,
    table: first.table,
    column: isOfHeader(first) && members.length > 1 ? null : first.column,
    place: findingPlace(first),
    message: first.message,
    count: members.length,
    more: moreLikeIt(members, 1),
    indices,
    members,
  };
}

/**
 * What stands for those after the first `shown` of a kind: `… and 8 more like it (rows 272, 275, 276, 279, 456 …)`; null
 * when none is left.
 */
export function moreLikeIt(members: readonly Finding[], shown: number): string | null {
  const next = members[shown];
  if (next === undefined) return null;
  const noun = isOfHeader(next) ? 'column' : rowNoun(next.table);
  const places = new Set<string>();
  for (let i = shown; i < members.length && places.size <= PLACES_NAMED; i++) {
    const like = members[i];
    places.add(String(noun === 'column' ? like?.column : like?.row));
  }
  const named = [...places].slice(0, PLACES_NAMED).join(', ');
  const rest = places.size > PLACES_NAMED ? ' …' : '';
  const nouns = places.size === 1 ? noun : `${noun}s`;
  return `… and ${formatCount(members.length - shown)} more like it (${nouns} ${named}${rest})`;
}

function rank(table: string): number {
  const place = FILE_ORDER.indexOf(table);
  return place < 0 ? FILE_ORDER.length : place;
}
