/**
 * The coordinates of a GeoJSON text, read straight from its bytes into flat numbers. JSON.parse makes an object of each
 * position, which for millions of them costs most of the time and memory that reading takes.
 */

import type { Positions } from '../../shared/survey.ts';

/** Of one `coordinates` member: lists of positions, the last of them flat, in `level` lists (0 a position by itself). */
export interface Coordinates {
  level: number;
  /** level 0 and 1: Positions; 2: Positions[]; 3: Positions[][] */
  value: Positions | Positions[] | Positions[][];
}

export interface Skimmed {
  /** the text with `[n]` in place of each list of coordinates, n its number in `lists` */
  rest: Uint8Array;
  lists: Coordinates[];
}

/** `"coordinates"` */
const KEY = new TextEncoder().encode('"coordinates"');
/** Polygons, rings and positions are lists. */
const DEEPEST = 3;
/** Whole numbers below this are exact, and so is the one rounding of their division by a power of 10 up to 1e22. */
const MOST_EXACT = 2 ** 53;
const MOST_DECIMALS = 22;

const POWERS = Float64Array.from({ length: MOST_DECIMALS + 1 }, (_, n) => Number(`1e${n}`));

const code = (sign: string): number => sign.charCodeAt(0);
const [OPEN, CLOSE, COMMA, COLON] = ['[', ']', ',', ':'].map(code);
const [PLUS, MINUS, POINT, ZERO, NINE] = ['+', '-', '.', '0', '9'].map(code);
const [SMALL_E, LARGE_E] = ['e', 'E'].map(code);

/**
 * Null where anything is not as it usually is (an odd number, lists of several depths, an empty ring): then the text is to
 * be read as a whole, which also says what is wrong. Empty lists of coordinates stay in the rest.
 */
export function skimCoordinates(bytes: Uint8Array): Skimmed | null {
  const reader = new Reader(bytes);
  const lists: Coordinates[] = [];
  const parts: Uint8Array[] = [];
  let copied = 0;
  for (let at = bytes.indexOf(KEY[0]); at >= 0; at = bytes.indexOf(KEY[0], at + 1)) {
    if (!isKey(bytes, at)) continue;
    const colon = reader.skipSpace(at + KEY.length);
    if (bytes[colon] !== COLON) continue;
    const begin = reader.skipSpace(colon + 1);
    if (bytes[begin] !== OPEN || bytes[reader.skipSpace(begin + 1)] === CLOSE) continue;
    const read = reader.read(begin);
    if (read === null) return null;
    parts.push(bytes.subarray(copied, begin), new TextEncoder().encode(`[${lists.length}]`));
    lists.push(read);
    copied = reader.at;
    at = copied - 1;
  }
  parts.push(bytes.subarray(copied));
  const rest = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let end = 0;
  for (const part of parts) {
    rest.set(part, end);
    end += part.length;
  }
  return { rest, lists };
}

function isKey(bytes: Uint8Array, at: number): boolean {
  for (let i = 1; i < KEY.length; i++) if (bytes[at + i] !== KEY[i]) return false;
  return true;
}

class Reader {
  /** where the last list or number read ended */
  at = 0;
  private readonly bytes: Uint8Array;
  private readonly decoder = new TextDecoder();
  /** positions of the list that is being read */
  private flat = new Float64Array(1024);
  private length = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  skipSpace(from: number): number {
    let at = from;
    for (let c = this.bytes[at]; c === 32 || c === 10 || c === 13 || c === 9; c = this.bytes[at])
      at++;
    return at;
  }

  /** The list that begins at a place. */
  read(from: number): Coordinates | null {
    this.at = from;
    this.length = 0;
    const level = this.levelAt(from);
    if (level === null) return null;
    if (level === 0) return this.position() ? { level, value: this.taken() } : null;
    const value = this.lists(level);
    return value === null ? null : { level, value: value as Coordinates['value'] };
  }

  /** How many lists of positions open here. */
  private levelAt(from: number): number | null {
    let at = from;
    for (let level = -1; level <= DEEPEST; level++) {
      if (this.bytes[at] !== OPEN) return level < 0 ? null : level;
      at = this.skipSpace(at + 1);
    }
    return null;
  }

  private lists(level: number): unknown {
    if (this.bytes[this.at] !== OPEN) return null;
    const all: unknown[] = [];
    do {
      this.at = this.skipSpace(this.at + 1);
      if (level === 1) {
        if (!this.position()) return null;
      } else {
        const one = this.lists(level - 1);
        if (one === null) return null;
        all.push(one);
      }
      this.at = this.skipSpace(this.at);
    } while (this.bytes[this.at] === COMMA);
    if (this.bytes[this.at++] !== CLOSE) return null;
    return level === 1 ? this.taken() : all;
  }

  private taken(): Positions {
    const positions = this.flat.slice(0, this.length);
    this.length = 0;
    return positions;
  }

  /** Two numbers or more; only the first two are kept. */
  private position(): boolean {
    if (this.bytes[this.at] !== OPEN) return false;
    let count = 0;
    do {
      this.at = this.skipSpace(this.at + 1);
      const value = this.number();
      if (!Number.isFinite(value)) return false;
      if (count++ < 2) this.push(value);
      this.at = this.skipSpace(this.at);
    } while (this.bytes[this.at] === COMMA);
    return this.bytes[this.at++] === CLOSE && count >= 2;
  }

  private push(value: number): void {
    if (this.length === this.flat.length) {
      const larger = new Float64Array(2 * this.length);
      larger.set(this.flat);
      this.flat = larger;
    }
    this.flat[this.length++] = value;
  }

  /** As JSON writes it (RFC 8259, section 6), rounded as JSON.parse does; NaN where it is none. */
  private number(): number {
    const { bytes } = this;
    const from = this.at;
    let at = from;
    const negative = bytes[at] === MINUS;
    if (negative) at++;
    const whole = at;
    let digits = 0;
    for (let c = bytes[at]; c >= ZERO && c <= NINE; c = bytes[++at])
      digits = 10 * digits + c - ZERO;
    if (at === whole || (bytes[whole] === ZERO && at > whole + 1)) return Number.NaN;
    let decimals = 0;
    if (bytes[at] === POINT) {
      const first = ++at;
      for (let c = bytes[at]; c >= ZERO && c <= NINE; c = bytes[++at])
        digits = 10 * digits + c - ZERO;
      decimals = at - first;
      if (decimals === 0) return Number.NaN;
    }
    this.at = at;
    if (digits < MOST_EXACT && decimals <= MOST_DECIMALS && !isExponent(bytes[at])) {
      const value = digits / POWERS[decimals];
      return negative ? -value : value;
    }
    return this.longNumber(from, at);
  }

  /** More digits than a number holds, or an exponent. */
  private longNumber(from: number, end: number): number {
    const { bytes } = this;
    let at = end;
    if (isExponent(bytes[at])) {
      at++;
      if (bytes[at] === MINUS || bytes[at] === PLUS) at++;
      const first = at;
      while (bytes[at] >= ZERO && bytes[at] <= NINE) at++;
      if (at === first) return Number.NaN;
    }
    this.at = at;
    return Number(this.decoder.decode(bytes.subarray(from, at)));
  }
}

function isExponent(byte: number | undefined): boolean {
  return byte === SMALL_E || byte === LARGE_E;
}
