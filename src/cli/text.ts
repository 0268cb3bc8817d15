/** Plain text for a terminal of 80 columns. */

import { extent } from '../../shared/extent.ts';

export const WIDTH = 80;

/** Breaks text into lines of at most `width` characters at spaces; a longer word stands alone. */
export function wrap(text: string, indent = '', hanging = indent, width = WIDTH): string {
  const lines: string[] = [];
  let line = indent;
  let empty = true;
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = hanging;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line].join('\n');
}

/** Rows under each other, two spaces between columns, no space at the end of a line. */
export function columns(rows: string[][], align: ('left' | 'right')[], indent = ''): string {
  const widths = align.map((_, i) => extent([0, ...rows.map((row) => row[i]?.length ?? 0)])[1]);
  return rows
    .map((row) => {
      const cells = row.map((cell, i) =>
        align[i] === 'right' ? cell.padStart(widths[i]) : cell.padEnd(widths[i]),
      );
      return (indent + cells.join('  ')).trimEnd();
    })
    .join('\n');
}
