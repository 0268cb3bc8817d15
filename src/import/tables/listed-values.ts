/** Codes and words of other people's sheets → our listed values, substrate classes and plant cover; what is not spelt as ours is asked. */

import { DEFAULT_ANALYSIS } from '../../../shared/analysis.ts';
import type { Ask, Option } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { quoted } from '../../../shared/words.ts';
import { sourcesTold } from './blocks.ts';
import { bare, classParts, meaningOf } from './codes.ts';
import { type GatheredRow, type Given, givenOf, type SheetKind } from './gather.ts';
import { readNumber } from './numbers.ts';
import { TABLES } from './units.ts';

/** Our value for a cell; '' where the answer was to leave it blank or is not known yet, null where it has no meaning. */
export type ValueOf = (given: Given) => string | null;

/** An answer that leaves the cell blank; one that keeps a class under its own name. */
const BLANK = 'blank';
const KEPT = 'keep';
/** More words than these are no codes. */
const MOST_CODES = 60;

/** `field` is a column of listed values. */
export function askListed(
  kind: SheetKind,
  field: 'design' | 'stop' | 'bearing_ref' | 'role',
  rows: readonly GatheredRow[],
  ask: Ask,
): ValueOf {
  const {
    choices = [],
    label,
    required,
  } = TABLES[kind].columns.find(({ name }) => name === field)!;
  const options: Option[] = choices.map((value) => ({ value, label: value.replace('_', ' ') }));
  if (required !== 'always') options.push({ value: BLANK, label: 'leave it blank' });
  const meaning = (text: string) =>
    choices.find((c) => c === text.trim().toLowerCase()) ??
    meaningOf[field](text) ??
    (required === 'always' ? null : BLANK);
  return askWords(
    `${kind}.${field.replace('_', '-')}`,
    label,
    givenOf(rows, field),
    [...choices],
    options,
    meaning,
    ask,
  );
}

/** A second class in a column of its own stands behind the first, joined by `+`. */
export function joinClasses(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.map((row) => {
    const second = row.cells.get('substrate_2');
    if (second === undefined) return row;
    const cells = new Map(row.cells);
    cells.delete('substrate_2');
    const first = cells.get('substrate') ?? second;
    const text = first === second ? second.cell.text : `${first.cell.text}+${second.cell.text}`;
    cells.set('substrate', { ...first, cell: { text, kind: 'text' } });
    return { ...row, cells };
  });
}

/** Classes joined by `+`, each as in our list or under its own name. */
export function askSubstrate(rows: readonly GatheredRow[], ask: Ask): ValueOf {
  const classes = DEFAULT_ANALYSIS.substrates;
  const parts = givenOf(rows, 'substrate').flatMap((given) =>
    classParts(given.cell.text).map((text): Given => ({ ...given, cell: { text, kind: 'text' } })),
  );
  const options: Option[] = [
    ...classes.map((value) => ({ value, label: value })),
    { value: KEPT, label: 'keep it as a class of its own' },
  ];
  const { label } = TABLES.habitat.columns.find(({ name }) => name === 'substrate')!;
  const classOf = askWords(
    'habitat.substrate',
    label,
    parts,
    [...classes],
    options,
    (text) => meaningOf.substrate(text) ?? KEPT,
    ask,
  );
  return (given) => {
    const values = classParts(given.cell.text).map((text) =>
      classOf({ ...given, cell: { text, kind: 'text' } }),
    );
    return values.includes(null) || values.length === 0 ? null : [...new Set(values)].join('+');
  };
}

/** 0 none to 4 dense: whole numbers as they are, percentages by a scale that is asked, words by what they mean. */
export function askPlantCover(rows: readonly GatheredRow[], ask: Ask): ValueOf {
  const given = givenOf(rows, 'plant_cover');
  const values = given.map((one) => percentOf(one));
  const scores = given.every(({ cell }) => /^[0-4](\.0+)?$/.test(cell.text.trim()));
  if (scores) return ({ cell }) => cell.text.trim()[0];
  const known = values.flatMap((value) => value ?? []);
  const most = known.reduce((a, b) => Math.max(a, b), 0);
  const inPercent = given.some(
    ({ cell, column }) =>
      column.unit === '%' || column.text.includes('%') || cell.text.includes('%'),
  );
  if (known.length === given.length && (most > 4 || inPercent))
    return askScale(given, known, most, ask);
  const options: Option[] = ['0 none', '1', '2', '3', '4 dense'].map((label) => ({
    value: label[0],
    label,
  }));
  const { label } = TABLES.habitat.columns.find(({ name }) => name === 'plant_cover')!;
  return askWords(
    'habitat.plant-cover',
    label,
    given,
    ['0', '1', '2', '3', '4'],
    options,
    meaningOf.plant_cover,
    ask,
  );
}

function percentOf({ cell, decimalComma }: Given): number | null {
  const read = readNumber(cell.text, decimalComma);
  return read !== null && (read.unit === null || read.unit === '%') ? read.value : null;
}

/** Upper ends of the classes 0 to 4 in percent. */
const SCALES: Record<string, { ends: readonly number[]; label: string }> = {
  quarters: { ends: [0, 25, 50, 75, 100], label: '0; above 0 to 25; to 50; to 75; to 100 %' },
  'quarters-from-5': { ends: [5, 25, 50, 75, 100], label: '0 to 5; to 25; to 50; to 75; to 100 %' },
  fifths: { ends: [20, 40, 60, 80, 100], label: '0 to 20; to 40; to 60; to 80; to 100 %' },
};

function askScale(
  given: readonly Given[],
  values: readonly number[],
  most: number,
  ask: Ask,
): ValueOf {
  const answer = ask({
    kind: 'choice',
    id: 'habitat.plant-cover-percent',
    about: aboutOf(given),
    ask: 'Into which classes 0 to 4 do these percentages of plant cover go?',
    evidence: [
      `${formatCount(values.length)} numbers up to ${most}; ${formatCount(values.filter((v) => v === 0).length)} of them are 0, ${formatCount(values.filter((v) => v > 0 && v <= 5).length)} lie above 0 and up to 5.`,
    ],
    certain: false,
    pictures: [],
    options: Object.entries(SCALES).map(([value, { label }]) => ({ value, label })),
    proposal: 'quarters',
  });
  const ends = SCALES[answer ?? 'quarters']?.ends ?? SCALES.quarters.ends;
  return (one) => {
    const value = percentOf(one);
    const score = value === null || value < 0 ? -1 : ends.findIndex((end) => value <= end);
    return score < 0 ? null : String(score);
  };
}

function aboutOf(given: readonly Given[]): string {
  const places = new Set(given.map(({ spot, column }) => `${spot.table}, ${quoted(column.text)}`));
  return sourcesTold(places);
}

/** One question on all words that are not spelt as ours. */
function askWords(
  id: string,
  label: string,
  given: readonly Given[],
  ours: readonly string[],
  options: Option[],
  meaning: (text: string) => string | null,
  ask: Ask,
): ValueOf {
  const spelt = (text: string) => ours.find((value) => value === text.trim().toLowerCase()) ?? null;
  const counts = new Map<string, { text: string; count: number }>();
  for (const { cell } of given) {
    if (spelt(cell.text) !== null) continue;
    const key = bare(cell.text);
    const before = counts.get(key);
    counts.set(key, { text: before?.text ?? cell.text, count: (before?.count ?? 0) + 1 });
  }
  if (counts.size === 0) return ({ cell }) => spelt(cell.text);
  const words = [...counts].sort(([, a], [, b]) => b.count - a.count).slice(0, MOST_CODES);
  const proposals = words.map(([key, { text }]) => [key, meaning(text)] as const);
  const known = proposals.flatMap(([key, value]) =>
    value === null ? [] : [[key, value] as const],
  );
  const answer = ask({
    kind: 'matching',
    id,
    about: aboutOf(given),
    ask: `What do these values of ${label} stand for?`,
    evidence: words.map(
      ([, { text, count }]) =>
        `${quoted(text)} stands in ${formatCount(count)} ${count === 1 ? 'cell' : 'cells'}.`,
    ),
    certain: proposals.every(
      ([key, value]) =>
        value !== null && value.length > 1 && key.startsWith(value.replace('_', ' ')),
    ),
    pictures: [],
    keys: words.map(([key, { text }]) => ({ key, label: text })),
    options,
    proposal: Object.fromEntries(known),
  });
  return ({ cell }) => {
    const own = spelt(cell.text);
    if (own !== null) return own;
    const key = bare(cell.text);
    if (!words.some(([word]) => word === key)) return null;
    const value = answer?.[key] ?? BLANK;
    if (value === BLANK) return '';
    return value === KEPT ? cell.text.trim().toLowerCase() : value;
  };
}
