/** PMTiles archives, version 3, put together byte by byte after the specification's tables. */

import { gzipSync } from 'fflate';

/** Little-endian base 128. */
function varint(value: number): number[] {
  const bytes: number[] = [];
  let rest = value;
  while (rest >= 128) {
    bytes.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  return [...bytes, rest];
}

/** One directory, packed: [id, run, length, stored offset] an entry. */
export function directory(rows: [number, number, number, number][]): Uint8Array {
  const ids = rows.map((r, i) => r[0] - (i === 0 ? 0 : rows[i - 1][0]));
  const columns = [rows.length, ...ids, ...[1, 2, 3].flatMap((k) => rows.map((r) => r[k]))];
  return gzipSync(Uint8Array.from(columns.flatMap(varint)));
}

/** `change`: single bytes of the header by their place. */
export function archive(
  root: Uint8Array,
  leaves: Uint8Array,
  data: Uint8Array,
  change: Record<number, number> = {},
): Uint8Array<ArrayBuffer> {
  const head = new DataView(new ArrayBuffer(127));
  [...'PMTiles'].forEach((c, i) => {
    head.setUint8(i, c.charCodeAt(0));
  });
  head.setUint8(7, 3);
  const put = (at: number, value: number) => head.setBigUint64(at, BigInt(value), true);
  put(8, 127);
  put(16, root.length);
  put(40, 127 + root.length);
  put(48, leaves.length);
  put(56, 127 + root.length + leaves.length);
  put(64, data.length);
  head.setUint8(97, 2); // directories in gzip
  head.setUint8(98, 1); // tiles as they are
  head.setUint8(99, 2); // PNG
  head.setUint8(100, 0);
  head.setUint8(101, 9);
  for (const [at, value] of Object.entries(change)) head.setUint8(Number(at), value);
  return Uint8Array.from([...new Uint8Array(head.buffer), ...root, ...leaves, ...data]);
}
