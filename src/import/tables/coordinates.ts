/** A latitude or longitude as people and instruments write it → decimal degrees. */

export interface CoordinateRead {
  /** south and west negative where a letter or a sign says so */
  degrees: number;
  /** decimal degrees as written, where they were; else to 1e-7° (1 cm) */
  text: string;
  /** N S E W, where it is written */
  letter: string | null;
  /** decimal degrees, degrees and minutes, or also seconds */
  form: 'decimal' | 'minutes' | 'seconds';
}

const DECIMALS = 7;
const SIGNS = /[°º˚′’'″”"]|deg(?:rees?)?|min(?:utes?)?|sec(?:onds?)?/gi;

/** Null where it is no coordinate; whether it lies on the globe is not judged here. */
export function readCoordinate(written: string, decimalComma: boolean): CoordinateRead | null {
  const upper = written.trim().replace(/−/g, '-');
  const letters = upper.match(/[NSEWO](?![A-Za-z])/gi) ?? [];
  const bare = (decimalComma ? upper.replace(/(\d),(\d)/g, '$1.$2') : upper)
    .replace(SIGNS, ' ')
    .replace(/^[NSEWO](?=[\s\d.+-])|[NSEWO]$/i, ' ')
    .trim();
  const letter = letters.length === 1 ? letters[0].toUpperCase().replace('O', 'W') : null;
  const parts =
    /^([+-]?)\s*(\d+(?:\.\d*)?|\.\d+)(?:[\s:-]+(\d+(?:\.\d*)?)(?:[\s:-]+(\d+(?:\.\d*)?))?)?$/.exec(
      bare,
    );
  if (parts === null) return null;
  const [, sign, degrees, minutes, seconds] = parts;
  if (minutes !== undefined && degrees.includes('.')) return null;
  if (seconds !== undefined && minutes.includes('.')) return null;
  if (Number(minutes ?? 0) >= 60 || Number(seconds ?? 0) >= 60) return null;
  const size = Number(degrees) + Number(minutes ?? 0) / 60 + Number(seconds ?? 0) / 3600;
  const negative = sign === '-' || letter === 'S' || letter === 'W';
  const form = seconds !== undefined ? 'seconds' : minutes !== undefined ? 'minutes' : 'decimal';
  const text =
    form === 'decimal' ? degrees.replace(/\.$/, '') : String(Number(size.toFixed(DECIMALS)));
  return {
    degrees: negative ? -size : size,
    text: negative && size > 0 ? `-${text}` : text,
    letter,
    form,
  };
}

/** Both coordinates in one cell, latitude first unless letters say otherwise; null where it is not that. */
export function readPair(
  written: string,
  decimalComma: boolean,
): { lat: CoordinateRead; lon: CoordinateRead } | null {
  for (const [first, second] of halves(written)) {
    const a = readCoordinate(first, decimalComma);
    const b = readCoordinate(second, decimalComma);
    if (a === null || b === null || a.form !== b.form) continue;
    const exchanged = /[EW]/.test(a.letter ?? '') && !/[EW]/.test(b.letter ?? '');
    return exchanged ? { lat: b, lon: a } : { lat: a, lon: b };
  }
  return null;
}

/** By the sign between the two, by their letters, by the middle of their words. */
function* halves(written: string): Generator<[string, string]> {
  const text = written.trim().replace(/^\((.*)\)$/, '$1');
  for (const sign of [';', '/', ', ', ',']) {
    const parts = text.split(sign).filter((part) => part.trim() !== '');
    if (parts.length === 2) yield [parts[0], parts[1]];
  }
  const before = /^([NS].*?)\s*([EWO].*)$/i.exec(text);
  if (before !== null) yield [before[1], before[2]];
  const behind = /^(.*?[NS])\s+(.*[EWO])$/i.exec(text);
  if (behind !== null) yield [behind[1], behind[2]];
  const words = text.split(/\s+/);
  if (words.length % 2 === 0)
    yield [words.slice(0, words.length / 2).join(' '), words.slice(words.length / 2).join(' ')];
}
