/** Time spent as people and spreadsheets write it → decimal minutes or mm:ss, as our tables hold it. */

import { readNumber, shortDecimal } from './numbers.ts';

export interface DurationRead {
  text: string;
  /** a clock of hours, minutes and no seconds: a spreadsheet makes it of minutes and seconds that were typed */
  doubtful: boolean;
}

const MINUTES_A_DAY = 1440;
/** Days that a spreadsheet shows from its day 0 on, in both systems. */
const DAY_0 = [Date.UTC(1899, 11, 31), Date.UTC(1904, 0, 1)];

/**
 * Null where it is no time.
 * @param unit of the column: minutes where it says nothing
 * @param asMinutes what a doubtful clock is read as: 03:10:00 as 3 min 10 s, else as 3 h 10 min
 */
export function readDuration(
  written: string,
  unit: 's' | 'min' | 'h',
  decimalComma: boolean,
  asMinutes: boolean,
): DurationRead | null {
  const text = withoutDay(written.trim());
  const clock = /^(\d+):([0-5]\d)(?::([0-5]\d)(?:[.,]\d+)?)?$/.exec(text);
  if (clock !== null) return byClock(clock, unit === 'h', asMinutes);
  const words =
    /^(?:(\d+)\s*h\w*)?\s*(?:(\d+)\s*(?:m|min\w*|'|′))?\s*(?:(\d+)\s*(?:s|sec\w*|"|″))?$/i.exec(
      text,
    );
  if (
    words !== null &&
    text !== '' &&
    words.slice(1).filter((part) => part !== undefined).length > 1
  ) {
    const [hours, minutes, seconds] = words.slice(1).map((part) => Number(part ?? 0));
    return { text: mmss(hours * 3600 + minutes * 60 + seconds), doubtful: false };
  }
  const number = readNumber(text, decimalComma);
  if (number === null) return null;
  const said = number.unit ?? unit;
  if (said === 'min') return { text: number.text, doubtful: false };
  if (said === 's') return { text: shortDecimal(number.value / 60), doubtful: false };
  return said === 'h' ? { text: shortDecimal(number.value * 60), doubtful: false } : null;
}

function byClock(clock: RegExpExecArray, hours: boolean, asMinutes: boolean): DurationRead {
  const [a, b] = [Number(clock[1]), Number(clock[2])];
  if (clock[3] === undefined)
    return hours
      ? { text: mmss(a * 3600 + b * 60), doubtful: false }
      : { text: `${a}:${clock[2]}`, doubtful: false };
  const seconds = Number(clock[3]);
  const doubtful = a > 0 && seconds === 0;
  if (doubtful && asMinutes) return { text: `${a}:${clock[2]}`, doubtful };
  return { text: mmss(a * 3600 + b * 60 + seconds), doubtful };
}

/** `1900-01-01T07:00:00` is how a clock of 31 hours is shown. */
function withoutDay(text: string): string {
  const dated = /^((?:19)\d\d-\d\d-\d\d)(?:T(\d\d):(\d\d):(\d\d))?$/.exec(text);
  if (dated === null) return text;
  const at = Date.parse(`${dated[1]}T00:00:00Z`);
  const day0 = DAY_0.find((zero) => at >= zero && at < zero + 60 * 86_400_000);
  if (day0 === undefined) return text;
  const hours = (24 * (at - day0)) / 86_400_000 + Number(dated[2] ?? 0);
  return hours > MINUTES_A_DAY ? text : `${hours}:${dated[3] ?? '00'}:${dated[4] ?? '00'}`;
}

function mmss(seconds: number): string {
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
