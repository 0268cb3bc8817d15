/** Waypoints of transects → decimal degrees; a longitude that has lost its minus is asked. */

import type { Ask } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { plain, quoted } from '../../../shared/words.ts';
import { sourcesTold } from './blocks.ts';
import { type CoordinateRead, readCoordinate, readPair } from './coordinates.ts';
import type { GatheredRow, Given } from './gather.ts';

export type Axis = 'lat' | 'lon';
/** Decimal degrees as text; null where the cell holds no coordinate. */
export type DegreesOf = (given: Given, axis: Axis) => string | null;

const FIELDS = ['start_lat', 'start_lon', 'end_lat', 'end_lon'] as const;
/** The longitudes between which mirroring at Greenwich moves North American lakes to Asia and back; elsewhere one of the two is an ocean. */
const MIRRORED = { from: 52, to: 141 };

/** Cells that hold both coordinates become two. */
export function partPairs(rows: readonly GatheredRow[]): GatheredRow[] {
  return rows.map((row) => {
    const cells = new Map(row.cells);
    for (const end of ['start', 'end'] as const) {
      const given = cells.get(end);
      if (given === undefined) continue;
      cells.delete(end);
      const pair = readPair(given.cell.text, given.decimalComma);
      for (const axis of ['lat', 'lon'] as const) {
        const cell =
          pair === null ? given.cell : { text: spelt(pair[axis]), kind: 'text' as const };
        cells.set(`${end}_${axis}`, { ...given, cell, decimalComma: false });
      }
    }
    return { ...row, cells };
  });
}

function spelt({ text, letter }: CoordinateRead): string {
  return letter === null ? text : `${text.replace('-', '')} ${letter}`;
}

export function askWaypoints(rows: readonly GatheredRow[], ask: Ask): DegreesOf {
  const unsigned: number[] = [];
  let negative = 0;
  const places = new Set<string>();
  for (const { cells } of rows)
    for (const field of FIELDS) {
      const given = cells.get(field);
      const read = given === undefined ? null : coordinateIn(given, axisOf(field));
      if (given === undefined || read === null) continue;
      if (axisOf(field) === 'lat') continue;
      if (read.degrees < 0) negative++;
      else if (read.letter === null) {
        unsigned.push(read.degrees);
        places.add(`${given.spot.table}, ${quoted(given.column.text)}`);
      }
    }
  const west = askWest('transects.longitude', unsigned, negative, [...places], ask);
  return (given, axis) => {
    const read = coordinateIn(given, axis);
    if (read === null) return null;
    const turned = west && axis === 'lon' && read.letter === null && read.degrees > 0;
    return turned ? `-${read.text}` : read.text;
  };
}

/** Some are negative, or the other side of Greenwich is land as well. */
function isDoubtful(unsigned: readonly number[], negative: number): boolean {
  if (unsigned.length === 0) return false;
  if (negative > 0) return true;
  return unsigned.every((degrees) => degrees >= MIRRORED.from && degrees <= MIRRORED.to);
}

/** @param places columns and files that it is about */
export function askWest(
  id: string,
  unsigned: readonly number[],
  negative: number,
  places: string[],
  ask: Ask,
): boolean {
  if (!isDoubtful(unsigned, negative)) return false;
  const example = plain(unsigned[0]);
  const evidence = [
    `${formatCount(unsigned.length)} longitudes have neither a minus nor a letter, ${formatCount(negative)} are negative.`,
    `${example} degrees east of Greenwich lies in Asia, ${example} degrees west of it in North America.`,
  ];
  const answer = ask({
    kind: 'choice',
    id,
    about: sourcesTold(places),
    ask: `Has the minus of longitudes such as ${quoted(example)} been lost: does the lake lie west of Greenwich?`,
    evidence,
    certain: false,
    pictures: [],
    options: [
      { value: 'west', label: 'west of Greenwich (the Americas): put the minus back' },
      { value: 'as-typed', label: 'east of Greenwich: leave them as they are' },
    ],
    proposal: 'west',
  });
  return answer === 'west';
}

function axisOf(field: string): Axis {
  return field.endsWith('lat') ? 'lat' : 'lon';
}

/** The coordinate of a cell; null where it has none, or one of the other axis. */
export function coordinateIn(
  { cell, column, decimalComma }: Omit<Given, 'spot'>,
  axis: Axis,
): CoordinateRead | null {
  if (cell.kind === 'date' || cell.kind === 'error') return null;
  const read = readCoordinate(cell.text, decimalComma);
  if (read === null) return null;
  const wrong = axis === 'lat' ? /[EW]/ : /[NS]/;
  if (read.letter !== null && wrong.test(read.letter)) return null;
  // a header that says "W" or "West" speaks for all of its cells
  if (
    axis === 'lon' &&
    read.letter === null &&
    read.degrees > 0 &&
    /\b(w|west)\b/i.test(column.text.replace(/_/g, ' '))
  )
    return { ...read, degrees: -read.degrees, text: `-${read.text}`, letter: 'W' };
  return read;
}
