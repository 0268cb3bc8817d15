/** Labels of transects: turned into dates by a spreadsheet, given twice, or written in another way in one table. */

import type { Finding } from '../../shared/findings.ts';
import type { CellEdit } from '../../shared/repairs.ts';
import { nearest, quoted } from '../../shared/words.ts';
import { D, type Desk, H, made, type Proposal, T, unknown } from './desk.ts';

const TABLES = [T, H, D, 'planted_shells.csv'];
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

export function labelsLikeDates(desk: Desk): Proposal[] {
  const told = new Map<string, Finding[]>();
  for (const finding of desk.told('label-like-date', 'no-habitat', 'unknown-transect')) {
    const label = desk.text(finding.table, finding.row ?? 0, 'transect');
    if (label === null || readings(label).length === 0) continue;
    told.set(label, [...(told.get(label) ?? []), finding]);
  }
  const known = labelsOf(desk);
  return [...told].map(([label, findings]) => {
    const pairs = readings(label).map((pair) => ({ pair, text: spelled(pair, known) }));
    const elsewhere = pairs.filter(({ text }) => known.has(text) && !isWhole(desk, text));
    const fitting = pairs.filter(({ text }) => !isWhole(desk, text));
    const likely = elsewhere.length > 0 ? elsewhere : inSeries(fitting, known);
    const [only] = likely;
    if (only === undefined || likely.length > 1)
      return unknown(
        findings,
        `${quoted(label)} may have been ${pairs.map(({ text }) => quoted(text)).join(' or ')}, and no other label tells which: format the column as text and type it again`,
      );
    const why =
      elsewhere.length > 0
        ? `${quoted(only.text)} stands in another table and lacks its rows here`
        : fitting.length === 1
          ? `${pairs.map(({ text }) => quoted(text)).join(' and ')} would both give this date, and the other one is there already`
          : `the other labels run in the series of ${quoted(only.text)}`;
    return {
      title: `Set the label ${label} to ${only.text}`,
      why: `a spreadsheet makes a date of ${quoted(only.text)}; ${why}`,
      edits: renamed(desk, label, only.text),
      answers: [...findings, ...toldOf(desk, only.text)],
    };
  });
}

/** That the rows of a label have no transect. */
function toldOf(desk: Desk, label: string): Finding[] {
  return desk
    .told('unknown-transect')
    .filter(({ table, row }) => desk.text(table, row ?? 0, 'transect') === label);
}

/** The two numbers that a date was made of, in the order in which they may have stood: day and month, month and day. */
function readings(label: string): [number, number][] {
  const iso = /^(\d{4})-(\d{2})-(\d{2})(?:[T ].*)?$/.exec(label);
  if (iso) return bothWays(Number(iso[3]), Number(iso[2]));
  const slashed = /^(\d{1,2})[./](\d{1,2})[./]\d{2,4}$/.exec(label);
  if (slashed) return bothWays(Number(slashed[1]), Number(slashed[2]));
  const dayMonth = /^(\d{1,2})[-. ]([a-z]{3})[a-z]*/i.exec(label);
  const monthDay = /^([a-z]{3})[a-z]*[-. ](\d{1,2})$/i.exec(label);
  const month = monthOf(dayMonth?.[2] ?? monthDay?.[1] ?? '');
  const day = Number(dayMonth?.[1] ?? monthDay?.[2]);
  return month === 0 || !Number.isInteger(day) ? [] : bothWays(day, month);
}

function bothWays(a: number, b: number): [number, number][] {
  return a === b
    ? [[a, b]]
    : [
        [a, b],
        [b, a],
      ];
}

function monthOf(word: string): number {
  return MONTHS.indexOf(word.toLowerCase()) + 1;
}

/** As the other labels are: 3-4, 03-04, 3/4. */
function spelled([a, b]: [number, number], known: ReadonlySet<string>): string {
  for (const label of known) {
    const like = /^(\d{1,2})([-/.])(\d{1,2})$/.exec(label);
    if (like === null) continue;
    const pad = like[1]!.startsWith('0') || like[3]!.startsWith('0') ? 2 : 1;
    return `${String(a).padStart(pad, '0')}${like[2]}${String(b).padStart(pad, '0')}`;
  }
  return `${a}-${b}`;
}

/** Of what could be meant, the one whose first number other labels have as well. */
function inSeries<P extends { pair: [number, number] }>(
  fitting: P[],
  known: ReadonlySet<string>,
): P[] {
  if (fitting.length < 2) return fitting;
  const firsts = [...known].flatMap(
    (label) => /^(\d{1,2})[-/.]\d{1,2}$/.exec(label)?.slice(1, 2).map(Number) ?? [],
  );
  const counted = fitting.map((one) => ({
    one,
    times: firsts.filter((first) => first === one.pair[0]).length,
  }));
  const most = counted.reduce((max, { times }) => Math.max(max, times), 0);
  return most === 0 ? fitting : counted.filter(({ times }) => times === most).map(({ one }) => one);
}

function labelsOf(desk: Desk): Set<string> {
  return new Set(
    TABLES.flatMap((table) => desk.column(table, 'transect').map(({ text }) => text)).filter(
      (text) => text !== '',
    ),
  );
}

/** In transects.csv and in habitat.csv: nothing of it is missing. */
function isWhole(desk: Desk, label: string): boolean {
  return desk.transectOf.has(label) && desk.habitatOf.has(label);
}

function renamed(desk: Desk, from: string, to: string): CellEdit[] {
  return TABLES.flatMap((table) =>
    made(desk.labelled(table, from).map((row) => desk.change(table, row, 'transect', to))),
  );
}

/** A label that transects.csv has in another spelling. */
export function labelsMisspelt(desk: Desk): Proposal[] {
  const told = new Map<string, Finding[]>();
  for (const finding of desk.told('unknown-transect')) {
    const label = desk.text(finding.table, finding.row ?? 0, 'transect');
    if (label === null || readings(label).length > 0) continue;
    told.set(label, [...(told.get(label) ?? []), finding]);
  }
  const known = [...desk.transectOf.keys()];
  return [...told].flatMap(([label, findings]) => {
    const same = known.filter((other) => bare(other) === bare(label));
    // letter by letter only labels that are long enough to be told apart so
    const meant = same.length === 1 ? same[0]! : label.length > 4 ? nearest(label, known) : null;
    if (meant === null) return [];
    const why =
      same.length === 1
        ? 'they differ in signs, blanks, zeros or case alone'
        : 'a slip of one letter explains the difference';
    return [
      {
        title: `Set the label ${label} to ${meant}`,
        why,
        edits: renamed(desk, label, meant),
        answers: findings,
      },
    ];
  });
}

/** Without signs, blanks and leading zeros: T-01 and t1 are the same. */
function bare(label: string): string {
  return label.toLowerCase().replace(/[^a-z0-9]|(?<!\d)0+(?=\d)/g, '');
}

/** One label for two transects: the rows of the second one, told by where the first habitat begins again, get another. */
export function labelsTwice(desk: Desk): Proposal[] {
  return desk.told('duplicate-transect').map((finding) => {
    const row = finding.row ?? 0;
    const label = desk.text(T, row, 'transect') ?? '';
    const twins = desk.transects.filter(({ cells }) => cells.transect === label);
    const orphan = [...desk.habitatOf.keys()].filter((other) => !desk.transectOf.has(other));
    const [lost] = orphan;
    if (lost !== undefined && orphan.length === 1)
      return {
        title: `Set the label of row ${row} to ${lost}`,
        why: `${quoted(lost)} has rows in ${H} and none here; ${quoted(label)} stands here twice`,
        edits: made([desk.change(T, row, 'transect', lost)]),
        answers: [finding],
      };
    const habitat = desk.habitatOf.get(label) ?? [];
    const starts = habitat.flatMap(({ cells }, i) => (cells.distance_m === 0 ? [i] : []));
    const which = twins.findIndex((draft) => draft.row === row);
    if (starts.length !== twins.length || which < 0)
      return unknown(
        [finding],
        `${H} has ${starts.length} first rows (at 0 m) of ${quoted(label)} for ${twins.length} transects, so its rows cannot be told apart: the sheets must tell`,
      );
    const own = habitat.slice(starts[which], starts[which + 1]).map((draft) => draft.row);
    const parts = listsOf(desk, label);
    const groups =
      parts.length === twins.length ? parts : parts.length === 0 ? twins.map(() => []) : null;
    if (groups === null)
      return unknown(
        [finding],
        `the detections of ${quoted(label)} stand in ${parts.length} lists for ${twins.length} transects, so they cannot be told apart: the sheets must tell`,
      );
    const to = newLabel(desk, row, label);
    return {
      title: `Set the label of row ${row}, and of its rows in the other tables, to ${to}`,
      why: `the habitat rows begin at 0 m ${twins.length} times${parts.length === 0 ? '' : `, and the detections stand in ${parts.length} lists`}: one for each, in the order of ${T}`,
      edits: made([
        desk.change(T, row, 'transect', to),
        ...own.map((at) => desk.change(H, at, 'transect', to)),
        ...groups[which]!.map((at) => desk.change(D, at, 'transect', to)),
      ]),
      answers: [finding],
    };
  });
}

/** Rows of a label that follow one another; where all do, parted at each return from the secondary observer to the primary. */
function listsOf(desk: Desk, label: string): number[][] {
  const rows = desk.reading.drafts.detections.rows;
  const lists: number[][] = [];
  let [last, before] = [-2, ''];
  rows.forEach(({ row, cells }, i) => {
    if (cells.transect !== label) return;
    const again = before === 'secondary' && cells.role === 'primary';
    if (i !== last + 1 || again) lists.push([row]);
    else lists.at(-1)!.push(row);
    [last, before] = [i, cells.role ?? ''];
  });
  return lists;
}

/** The number that the labels around it leave out, else the label with a letter after it. */
function newLabel(desk: Desk, row: number, label: string): string {
  const at = desk.transects.findIndex((draft) => draft.row === row);
  const taken = labelsOf(desk);
  const above = /^(.*?)(\d+)$/.exec(desk.transects[at - 1]?.cells.transect ?? '');
  if (above !== null) {
    const next = above[1]! + String(Number(above[2]) + 1).padStart(above[2]!.length, '0');
    if (!taken.has(next)) return next;
  }
  for (let i = 1; i < 26; i++) {
    const next = label + String.fromCharCode(97 + i);
    if (!taken.has(next)) return next;
  }
  return `${label} row ${row}`;
}
