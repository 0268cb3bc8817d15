/** The notices in short: of one kind together, what touches the number first. */

import type { Warning } from '../../shared/estimate.ts';
import { wrap } from './text.ts';

/** Kinds shown; all of them stand in warnings.csv and went to standard error. */
const MOST_KINDS = 10;

/** From what changes the whole number to what touches one row. */
const ORDER = [
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
];

/** A few lines of at most 80 columns; null when there is nothing to tell. */
export function noticeLines(warnings: Warning[]): string | null {
  if (warnings.length === 0) return null;
  const kinds = [...byKind(warnings)].sort((a, b) => rank(a[0]!) - rank(b[0]!));
  const lines = kinds.slice(0, MOST_KINDS).map((kind) => {
    const first = kind[0]!;
    const others = kind.length > 1 ? ` (and ${kind.length - 1} more of this kind)` : '';
    return wrap(`- ${place(first)}: ${first.message}${others}`, '  ', '    ');
  });
  const left = kinds.slice(MOST_KINDS).reduce((n, kind) => n + kind.length, 0);
  if (left > 0) lines.push(`  - and ${left} more: see warnings.csv`);
  return lines.join('\n');
}

function byKind(warnings: Warning[]): Iterable<Warning[]> {
  const kinds = new Map<string, Warning[]>();
  for (const w of warnings) {
    const key = `${w.table} ${w.code}`;
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, [w]);
    else kind.push(w);
  }
  return kinds.values();
}

function rank(w: Warning): number {
  const place = ORDER.indexOf(w.table);
  return place < 0 ? ORDER.length : place;
}

function place({ table, row }: Warning): string {
  if (row === null) return table;
  return `${table} ${table.endsWith('json') ? 'feature' : 'row'} ${row}`;
}
