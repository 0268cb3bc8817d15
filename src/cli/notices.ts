/** The notices of a result in short, for the summary. */

import type { Notices } from '../present/notices.ts';
import { wrap } from './text.ts';

/** Kinds shown; all of them stand in warnings.csv and went to standard error. */
const MOST_KINDS = 10;

/** A few lines of at most 80 columns; null when there is nothing to say. */
export function noticeLines({ kinds }: Notices): string | null {
  if (kinds.length === 0) return null;
  const lines = kinds
    .slice(0, MOST_KINDS)
    .map(({ place, message, more }) =>
      wrap(`- ${place}: ${message}${more === null ? '' : ` ${more}`}`, '  ', '    '),
    );
  const left = kinds.slice(MOST_KINDS).reduce((n, { count }) => n + count, 0);
  if (left > 0) lines.push(`  - … and ${left} of other kinds: see warnings.csv`);
  return lines.join('\n');
}
