/** A cell that holds a number as people write it → its value, and the unit that stands behind it. */

/** Of lengths, angles, time and shares; what else stands behind a number makes it none. */
export type Unit = 'm' | 'ft' | 'in' | 'cm' | 'mm' | 'km' | 'deg' | 'min' | 's' | 'h' | '%';

export interface NumberRead {
  /** decimal point, no thousands separators, otherwise as written */
  text: string;
  value: number;
  unit: Unit | null;
}

const UNIT_WORDS: Record<Unit, string> = {
  m: 'm|metre|metres|meter|meters|mtr|mtrs|metro|metros|mètre|mètres|metern',
  ft: "ft|foot|feet|'|′|’|pie|pies|pied|pieds|fuß|fuss",
  in: 'in|inch|inches|"|″|”',
  cm: 'cm|centimetre|centimetres|centimeter|centimeters',
  mm: 'mm|millimetre|millimetres|millimeter|millimeters',
  km: 'km|kilometre|kilometres|kilometer|kilometers',
  deg: 'deg|degs|degree|degrees|°|º|grado|grados|degré|degrés|grad',
  min: 'min|mins|minute|minutes|minuto|minutos|minuten',
  s: 's|sec|secs|second|seconds',
  h: 'h|hr|hrs|hour|hours',
  '%': '%|percent|pct|per cent',
};
const BY_WORD = new Map(
  Object.entries(UNIT_WORDS).flatMap(([unit, words]) =>
    words.split('|').map((word) => [word, unit as Unit] as const),
  ),
);

/** `(ft)`, `feet`, `Ft.` → ft; null where it is no unit that is known here. */
export function unitOf(words: string): Unit | null {
  const bare = words.trim().toLowerCase().replace(/\.$/, '');
  return BY_WORD.get(bare) ?? null;
}

/** Exact by definition (international inch, 1959). */
export const METRES: Partial<Record<Unit, number>> = {
  m: 1,
  ft: 0.3048,
  in: 0.0254,
  cm: 0.01,
  mm: 0.001,
  km: 1000,
};

const NUMBER =
  /^([+−-]?)(\d+(?:[\s'’\u202f]\d{3})*|\d{1,3}(?:[.,]\d{3})+|)([.,]\d+|[.,])?(e[+-]?\d+)?\s*([^\d\s.,+-].*)?$/i;
const FEET_AND_INCHES =
  /^(\d+)\s*(?:'|′|’|ft\.?|feet)\s*(\d+(?:\.\d+)?)\s*(?:"|″|”|''|in\.?|inches)?$/i;

/**
 * Null where it is no number: `20+`, `~30`, `lots`, `10-20` among them, which a person has to decide about.
 * @param decimalComma whether the table writes 3,5 for three and a half
 */
export function readNumber(written: string, decimalComma: boolean): NumberRead | null {
  const text = written.trim();
  const both = FEET_AND_INCHES.exec(text);
  if (both !== null) {
    const value = Number(both[1]) + Number(both[2]) / 12;
    return { text: String(Number(value.toPrecision(12))), value, unit: 'ft' };
  }
  const parts = NUMBER.exec(text);
  if (parts === null) return null;
  const [, sign, whole, fraction = '', exponent = '', words] = parts;
  const unit = words === undefined ? null : unitOf(words);
  if (words !== undefined && unit === null) return null;
  const plain = parted(whole, fraction, decimalComma);
  if (plain === null) return null;
  const minus = sign === '-' || sign === '−' ? '-' : '';
  const read = minus + plain + exponent;
  const value = Number(read);
  return Number.isFinite(value) ? { text: read, value: value + 0, unit } : null;
}

/** Digits with a decimal point; null where the separators stand in no order. A lone point is always a decimal point. */
function parted(whole: string, fraction: string, decimalComma: boolean): string | null {
  const joined = (whole + fraction).replace(/[\s'’\u202f]/g, '');
  if (!/\d/.test(joined)) return null;
  const signs = joined.replace(/\d/g, '');
  if (signs === '' || signs === '.') return withPoint(joined);
  if (signs === ',') {
    const thousands = !decimalComma && /^[1-9]\d{0,2},\d{3}$/.test(joined);
    return withPoint(joined.replace(',', thousands ? '' : '.'));
  }
  // several: the last one is the decimal sign where it stands once, the others part thousands
  const last = signs.at(-1)!;
  const once = signs.indexOf(last) === signs.length - 1;
  const groups = (once ? joined.slice(0, joined.lastIndexOf(last)) : joined).split(/[.,]/);
  if (!groups.slice(1).every((group) => group.length === 3)) return null;
  if (/[.]/.test(signs.slice(0, -1)) && /,/.test(signs.slice(0, -1))) return null;
  const decimals = once ? joined.slice(joined.lastIndexOf(last) + 1) : '';
  return withPoint(`${groups.join('')}.${decimals}`);
}

/** `.5` → 0.5, `3.` → 3 */
function withPoint(text: string): string {
  return text.replace(/^\./, '0.').replace(/\.$/, '');
}

/** So many decimals are kept of a converted length: a tenth of a millimetre, of centimetres a hundredth. */
const CONVERTED_DECIMALS = 4;

/** A converted value as it stands in our files: without trailing zeros. */
export function shortDecimal(value: number, decimals = CONVERTED_DECIMALS): string {
  return String(Number(value.toFixed(decimals)));
}

export type CommaReading = 'decimal' | 'thousands' | 'either';

/** What commas between digits stand for, from all cells of a table; `either`: each has exactly three digits behind it, and no point stands anywhere. */
export function commaReading(texts: Iterable<string>): { reading: CommaReading; cells: number } {
  let unclear = 0;
  let decimal = 0;
  let points = 0;
  for (const text of texts) {
    if (/^[+-]?\d+,\d+$/.test(text)) {
      if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(text)) unclear++;
      else decimal++;
    } else if (/^[+-]?\d*\.\d+$/.test(text)) points++;
  }
  if (decimal > 0) return { reading: 'decimal', cells: decimal + unclear };
  if (unclear === 0 || points > 0) return { reading: 'thousands', cells: unclear };
  return { reading: 'either', cells: unclear };
}
