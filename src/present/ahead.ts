/** What more dives would bring, for the report of a survey: the curve in words, drawn and in figures. */

import { term, terms } from '../../shared/glossary.ts';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { basisWords, curveWords, diveWords } from './plan.ts';
import { aheadPicture, curveTable, type PrecisionPicture } from './precision-curve.ts';

export interface AheadRead {
  /** a sentence each */
  lines: string[];
  picture: PrecisionPicture;
  table: { title: string; head: string[]; rows: string[][] };
  /** what the curve leaves out */
  note: string;
}

/** Null where no number of more dives tells the total. */
export function readAhead(
  ahead: PrecisionAhead | null,
  units: UnitSystem = 'metric',
): AheadRead | null {
  const picture = ahead && aheadPicture(ahead);
  if (ahead === null || picture === null) return null;
  const { head, rows } = curveTable(ahead);
  const title = `Expected ${term('cv')} by the number of more ${terms('transect')} added to this survey`;
  return {
    lines: [
      ...(ahead.current_cv === null ? [] : [basisWords(ahead.current_cv)]),
      `More dives are taken to be ${diveWords(ahead, units)}.`,
      ...curveWords(ahead.curve, true),
    ],
    picture,
    table: { title, head, rows },
    note: 'It comes from few places and designs, with nothing fitted again: the station Next dives, and the command plan, have the whole curve and where the dives lie.',
  };
}
