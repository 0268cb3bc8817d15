/** Differences of two copies in words, for the terminal, a file and the page. */

import type { Difference, Differences } from '../../shared/differences.ts';
import { formatCount } from '../../shared/units.ts';
import { quoted, visible } from '../../shared/words.ts';

export interface DifferenceWords {
  /** `transects.csv row 4, length_m (T3)` */
  place: string;
  here: string;
  there: string;
  /** which copy alone changed it; blank where that is not known, or both did */
  changed: string;
}

const NO_ROW = 'no such row';

export function differenceWords(
  d: Difference,
  names: { here: string; there: string },
): DifferenceWords {
  const rows =
    d.here === null || d.there === null || d.here === d.there
      ? `row ${d.here ?? d.there}`
      : `row ${d.here} (there row ${d.there})`;
  const column = d.names === undefined ? '' : ', whole row';
  const about = d.about === '' ? '' : ` (${visible(d.about)})`;
  const shown = (text: string): string =>
    d.names === undefined ? shownCell(text) : text === '' ? NO_ROW : shownRow(text, d.names);
  return {
    place: `${d.table} ${rows}${d.names === undefined ? `, ${visible(d.column)}` : column}${about}`,
    here: shown(d.values.here),
    there: shown(d.values.there),
    changed: d.changedBy === null ? '' : `changed in ${names[d.changedBy]} alone`,
  };
}

function shownCell(text: string): string {
  return text === '' ? 'blank' : quoted(text);
}

function shownRow(text: string, names: readonly string[]): string {
  const cells = JSON.parse(text) as string[];
  return cells
    .flatMap((cell, i) => (cell === '' ? [] : [`${names[i]} ${visible(cell)}`]))
    .join(', ');
}

/** The whole of it in a sentence. */
export function differencesSentence({ differences, files, ancestor }: Differences): string {
  if (differences.length === 0 && files.length === 0) return 'The two copies say the same.';
  const number = formatCount(differences.length);
  const cells = differences.length === 1 ? '1 difference' : `${number} differences`;
  const asked = differences.filter(({ changedBy }) => changedBy === null).length;
  const past = ancestor
    ? `; both were changed from the same tables, ${formatCount(asked)} of them in both copies or in neither history`
    : '';
  const others =
    files.length === 0 ? '' : `; not the same, and not compared cell by cell: ${files.join(', ')}`;
  return `${cells} in the tables${past}${others}.`;
}
