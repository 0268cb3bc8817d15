/** Numbers that a workbook shows as dates and times (ECMA-376 part 1, 18.17.4 and 18.8.30) → ISO 8601. */

/** How a cell shows its number. `elapsed`: hours that go on beyond 24. */
export type Look = 'number' | 'percent' | 'date' | 'time' | 'elapsed';

const MS_A_DAY = 86_400_000;
/** Day 0 of the two systems as days before 1 January 1970. */
const BEFORE_1970 = { 1900: 25_569, 1904: 24_107 };
/** In the system of 1900 a 29 February 1900 is counted that never was: days before it are one less away. */
const LEAP_THAT_NEVER_WAS = 60;
/** 31 December 9999 */
const LAST_DAY = 2_958_465;

/** The formats that every workbook has without listing them (18.8.30); those for East Asia are dates as well. */
export function builtInLook(id: number): Look {
  if (id === 9 || id === 10) return 'percent';
  if ((id >= 14 && id <= 17) || id === 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58))
    return 'date';
  if ((id >= 18 && id <= 21) || id === 45 || id === 47) return 'time';
  return id === 46 ? 'elapsed' : 'number';
}

/** The look of a format that a workbook brings along: its first section is what counts. */
export function lookOf(format: string): Look {
  const bare = format
    .replace(/"[^"]*"|\\.|_.|\*./g, '')
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, '')
    .split(';')[0];
  if (/^general$/i.test(bare.trim())) return 'number';
  if (/\[(h+|m+|s+)\]/i.test(bare)) return 'elapsed';
  if (/[yd]/i.test(bare)) return 'date';
  if (/[hs]/i.test(bare)) return 'time';
  if (/m/i.test(bare)) return 'date';
  return bare.includes('%') ? 'percent' : 'number';
}

/**
 * YYYY-MM-DD, with THH:MM:SS where the number is no whole day; HH:MM:SS for times alone, hours beyond 24 where the
 * format goes on. To the nearest second. Null where the number is no date of a calendar.
 */
export function serialToIso(serial: number, look: Look, system: 1900 | 1904): string | null {
  if (!(serial >= 0) || serial > LAST_DAY) return null;
  const seconds = Math.round(serial * 86_400);
  if (look === 'elapsed' || (look === 'time' && serial < 1)) return clock(seconds);
  const days = system === 1900 && serial < LEAP_THAT_NEVER_WAS ? serial + 1 : serial;
  if (system === 1900 && (serial < 1 || Math.floor(serial) === LEAP_THAT_NEVER_WAS)) return null;
  const ms = Math.round((days - BEFORE_1970[system]) * 86_400) * 1000;
  const at = new Date(ms).toISOString();
  return ms % MS_A_DAY === 0 ? at.slice(0, 10) : at.slice(0, 19);
}

function clock(seconds: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}
