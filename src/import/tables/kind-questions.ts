/** What is asked about whole tables: what each is about where that is not plain, and what a comma between digits means. */

import type { Ask, Option, RawTable } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { sourceOf, sourcesTold } from './blocks.ts';
import type { Judged, TableKind } from './kinds.ts';
import type { Studied } from './match.ts';
import { commaReading } from './numbers.ts';

const OPTIONS: Option[] = [
  { value: 'transects', label: 'transects: a row for each' },
  { value: 'habitat', label: 'habitat: a row where one begins' },
  { value: 'detections', label: 'detections: a row for each cluster' },
  { value: 'planted_shells', label: 'planted shells: a row for each transect that had some' },
  { value: 'mixed', label: 'several of these in one table' },
  { value: 'points', label: 'points on a map: soundings, samples, waypoints, shoreline' },
  { value: 'none', label: 'leave it out' },
];
const LONGEST_KEY = 80;

/** The kind of each table. Those that are plain are not asked about; their columns are. */
export function askKinds(
  tables: readonly { table: Studied; judged: Judged }[],
  ask: Ask,
): TableKind[] {
  const unsure = new Map<string, { table: Studied; judged: Judged }[]>();
  for (const one of tables) {
    if (one.judged.sure) continue;
    const key = keyOf(one.table);
    unsure.set(key, [...(unsure.get(key) ?? []), one]);
  }
  if (unsure.size === 0) return tables.map(({ judged }) => judged.kind);
  const groups = [...unsure];
  const sources = (group: readonly { table: Studied }[]) =>
    group.map(({ table }) => sourceOf(table.block.table));
  const names = (group: readonly { table: Studied }[]) => sourcesTold(sources(group));
  const answer = ask({
    kind: 'matching',
    id: 'tables.kinds',
    about: sourcesTold(groups.flatMap(([, group]) => sources(group))),
    ask: 'What are these tables about?',
    evidence: groups.map(([, group]) => `${names(group)}: ${group[0].judged.because}.`),
    certain: false,
    pictures: [],
    keys: groups.map(([key, group]) => ({ key, label: names(group) })),
    options: OPTIONS,
    proposal: Object.fromEntries(groups.map(([key, group]) => [key, group[0].judged.kind])),
  });
  return tables.map(({ table, judged }) =>
    judged.sure ? judged.kind : ((answer?.[keyOf(table)] ?? judged.kind) as TableKind),
  );
}

/** By its header, not by its name: it is the same next year. */
function keyOf({ block }: Studied): string {
  return block.columns
    .map(({ key }) => key)
    .join(' | ')
    .slice(0, LONGEST_KEY);
}

/** Whether a table writes 3,5 for three and a half: read from all of its cells, and asked where each comma has three digits behind it. */
export function askCommas(
  tables: readonly RawTable[],
  ask: Ask,
): { isDecimal: (table: RawTable) => boolean; remarks: string[] } {
  const readings = new Map(tables.map((table) => [table, commaReading(textsOf(table))] as const));
  const either = tables.filter((table) => readings.get(table)?.reading === 'either');
  let decimal = false;
  if (either.length > 0) {
    const cells = either.reduce((sum, table) => sum + (readings.get(table)?.cells ?? 0), 0);
    const example = [...textsOf(either[0])].find((text) => /^[+-]?\d+,\d{3}$/.test(text)) ?? '';
    const answer = ask({
      kind: 'choice',
      id: 'numbers.comma',
      about: sourcesTold(either.map(sourceOf)),
      ask: `Is ${example} a number below ${Number(example.split(',')[0]) + 1}, or one in the thousands?`,
      evidence: [
        `${formatCount(cells)} numbers have a comma and three digits behind it; none has a point or another number of digits.`,
      ],
      certain: false,
      pictures: [],
      options: [
        { value: 'decimal', label: `the comma is a decimal point: ${example.replace(',', '.')}` },
        { value: 'thousands', label: `the comma parts thousands: ${example.replace(',', '')}` },
      ],
      proposal: 'decimal',
    });
    decimal = answer !== 'thousands';
  }
  const isDecimal = (table: RawTable) => {
    const reading = readings.get(table)?.reading ?? 'thousands';
    return reading === 'decimal' || (reading === 'either' && decimal);
  };
  return {
    isDecimal,
    remarks: tables.flatMap((table) => commaRemark(table, readings.get(table)!)),
  };
}

function commaRemark(
  table: RawTable,
  { reading, cells }: ReturnType<typeof commaReading>,
): string[] {
  if (cells === 0 || reading === 'either') return [];
  const meaning =
    reading === 'decimal'
      ? 'commas are decimal points'
      : 'commas part thousands, as other numbers have a point';
  return [
    `${sourceOf(table)}: ${meaning} (${formatCount(cells)} ${cells === 1 ? 'number' : 'numbers'}).`,
  ];
}

function* textsOf({ rows }: RawTable): Generator<string> {
  for (const { cells } of rows) for (const { kind, text } of cells) if (kind === 'text') yield text;
}
