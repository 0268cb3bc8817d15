/**
 * Unpacks the blocks of a TIFF, each to the size that it has and not a byte further: a few bytes can ask for any amount of
 * memory. (TIFF 6.0, Adobe 1992, sections 9 and 13; deflate: TIFF Technical Notes, Adobe 2002.)
 */

const NONE = 1;
const LZW = 5;
const DEFLATE = [8, 32_946];
const PACKBITS = 32_773;

/** As the tag of compression has them; what is not named here is not read. */
export const PACKINGS: ReadonlySet<number> = new Set([NONE, LZW, ...DEFLATE, PACKBITS]);

/** One way of packing: its codes, and what unpacks a block to at most so many bytes. */
export interface Packing {
  codes: readonly number[];
  unpack: (packed: Uint8Array, most: number) => Uint8Array | Promise<Uint8Array>;
}

/** Those that need unpacking. */
export const UNPACKERS: readonly Packing[] = [
  { codes: [LZW], unpack: unpackLzw },
  { codes: DEFLATE, unpack: unpackDeflate },
  { codes: [PACKBITS], unpack: unpackPackbits },
];

/** What comes after `most` bytes is left packed. Throws when the bytes are no deflated ones. */
export async function unpackDeflate(packed: Uint8Array, most: number): Promise<Uint8Array> {
  const out = new Unpacked(most);
  const stream = new DecompressionStream('deflate');
  const writer = stream.writable.getWriter();
  // what is wrong is told on the side that reads
  writer.write(new Uint8Array(packed)).catch(() => {});
  writer.close().catch(() => {});
  const reader = stream.readable.getReader();
  while (!out.full) {
    const { done, value } = await reader.read();
    if (done) break;
    out.add(value);
  }
  await reader.cancel().catch(() => {});
  return out.bytes();
}

export function unpackPackbits(packed: Uint8Array, most: number): Uint8Array {
  const out = new Unpacked(most);
  for (let i = 0; i < packed.length && !out.full; ) {
    const head = packed[i++];
    if (head < 128) {
      out.add(packed.subarray(i, i + head + 1));
      i += head + 1;
    } else if (head > 128) {
      out.repeat(packed[i++] ?? 0, 257 - head);
    }
  }
  return out.bytes();
}

const CLEAR = 256;
const END = 257;
const LEAST_BITS = 9;
const MOST_BITS = 12;

/** Throws at a code that is not known yet. */
export function unpackLzw(packed: Uint8Array, most: number): Uint8Array {
  const out = new Unpacked(most);
  // of each string of the table: the one that it prolongs, its last byte, its length
  const before = new Uint16Array(1 << MOST_BITS);
  const last = Uint8Array.from(before, (_, code) => code);
  const length = new Uint16Array(1 << MOST_BITS).fill(1);
  let known = END + 1;
  let bits = LEAST_BITS;
  let previous = -1;
  let held = 0;
  let holds = 0;
  for (let i = 0; !out.full; ) {
    while (holds < bits && i < packed.length) {
      held = ((held << 8) | packed[i++]) & 0xffffff;
      holds += 8;
    }
    if (holds < bits) break;
    holds -= bits;
    const code = (held >> holds) & ((1 << bits) - 1);
    if (code === END) break;
    if (code === CLEAR) {
      known = END + 1;
      bits = LEAST_BITS;
      previous = -1;
      continue;
    }
    if (code > known || (code === known && previous < 0) || (previous < 0 && code > 255))
      throw new Error(`a block holds the code ${code} before it is known`);
    if (previous >= 0 && known < 1 << MOST_BITS) {
      let first = code === known ? previous : code;
      while (length[first] > 1) first = before[first];
      before[known] = previous;
      last[known] = last[first];
      length[known] = length[previous] + 1;
      known++;
    }
    const room = out.reserve(length[code]);
    for (let at = length[code] - 1, c = code; at >= 0; at--, c = before[c]) {
      if (at < room.length) room[at] = last[c];
    }
    previous = code;
    // a code gets longer one code before it has to
    if (known + 1 >= 1 << bits && bits < MOST_BITS) bits++;
  }
  return out.bytes();
}

/** Bytes up to a limit; room grows with what there is, since a size may be a lie. */
class Unpacked {
  private room: Uint8Array;
  private length = 0;
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
    this.room = new Uint8Array(Math.min(most, 65_536));
  }

  get full(): boolean {
    return this.length >= this.most;
  }

  add(bytes: Uint8Array): void {
    const place = this.reserve(bytes.length);
    place.set(bytes.subarray(0, place.length));
  }

  repeat(byte: number, times: number): void {
    this.reserve(times).fill(byte);
  }

  /** The next so many bytes, to be written; fewer at the limit. */
  reserve(wanted: number): Uint8Array {
    const from = this.length;
    const to = Math.min(this.most, from + wanted);
    if (to > this.room.length) {
      const larger = new Uint8Array(Math.min(this.most, Math.max(to, 2 * this.room.length)));
      larger.set(this.room.subarray(0, from));
      this.room = larger;
    }
    this.length = to;
    return this.room.subarray(from, to);
  }

  bytes(): Uint8Array {
    return this.room.subarray(0, this.length);
  }
}
