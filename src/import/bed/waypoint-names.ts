/** How people name waypoints after transects: `T1S`, `T1 start`, `01-A`, `Transect 7 deep end`. */

/** Words that say which end is meant: the start is the shallow one. */
const START = new Set([
  's',
  'st',
  'start',
  'beg',
  'begin',
  'beginning',
  'shallow',
  'shore',
  'in',
  'a',
]);
const END = new Set(['e', 'end', 'stop', 'fin', 'finish', 'deep', 'out', 'off', 'f', 'b']);
/** Words that name nothing. */
const FILLER = new Set([
  'transect',
  'trans',
  'tr',
  't',
  'line',
  'wpt',
  'wp',
  'waypoint',
  'point',
  'pt',
  'dive',
  'site',
  'no',
  'nr',
]);

export type EndOf = 'start' | 'end';

export interface NameMatch {
  transect: string;
  /** null: the name says no end */
  of: EndOf | null;
  /** the name holds the transect's whole label, not its number alone */
  whole: boolean;
}

/** The transects that a waypoint's name can mean: one where it is plain, several where it is not, none. */
export function matchesOf(waypoint: string, transects: readonly string[]): NameMatch[] {
  const readings = readingsOf(wordsOf(waypoint));
  for (const whole of [true, false]) {
    for (const { words, of } of readings) {
      const key = whole ? words.join(' ') : coreOf(words);
      if (key === '') continue;
      const hits = transects.filter((t) => {
        const own = wordsOf(t);
        return (whole ? own.join(' ') : coreOf(own)) === key;
      });
      if (hits.length > 0) return hits.map((transect) => ({ transect, of, whole }));
    }
  }
  return [];
}

/** Letters and numbers apart, lower case, without leading zeros: `T01-S` → t 1 s. */
export function wordsOf(name: string): string[] {
  return (
    name
      .toLowerCase()
      .normalize('NFKD')
      .match(/[\p{L}]+|\d+/gu) ?? []
  ).map((word) => (/^\d/.test(word) ? String(Number(word)) : word));
}

/** The name as it is; then with its last, or its first, word taken for an end. */
function readingsOf(words: readonly string[]): { words: string[]; of: EndOf | null }[] {
  const readings: { words: string[]; of: EndOf | null }[] = [{ words: [...words], of: null }];
  const bare = words.filter(
    (word) => word !== 'end' || !words.some((w) => w === 'deep' || w === 'shallow'),
  );
  for (const [at, rest] of [
    [bare.at(-1), bare.slice(0, -1)],
    [bare[0], bare.slice(1)],
  ] as const) {
    if (at === undefined || rest.length === 0) continue;
    if (START.has(at)) readings.push({ words: rest, of: 'start' });
    else if (END.has(at)) readings.push({ words: rest, of: 'end' });
  }
  return readings;
}

/** Without the words that name nothing; '' when nothing else is left. */
function coreOf(words: readonly string[]): string {
  return words.filter((word) => !FILLER.has(word)).join(' ');
}
