/**
 * Zips that are made to break something, each opened in a process of its own: what comes of it, in how much time and
 * memory. `npx tsx tests/hostile/zips.ts` prints a table; `npx tsx tests/hostile/zips.ts NAME` opens one.
 */

import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { BadZip, unpackSurvey } from '../../src/app/storage/survey-zip.ts';
import { packZip } from '../../src/publish/pack-zip.ts';
import { type ZipMember, zipOf } from '../helpers/zips.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const table: ZipMember = {
  name: 'pond/transects.csv',
  content: bytes('transect,date\r\n1,2026\r\n'),
};
const zeros = (megabytes: number): Uint8Array => new Uint8Array(megabytes * 1e6);
const changed = (zip: Uint8Array, fromEnd: number, ...values: number[]): Uint8Array => {
  zip.set(values, zip.length - fromEnd);
  return zip;
};
const many = (n: number, name: (k: number) => string): Uint8Array => {
  const content = bytes('x');
  return zipOf(Array.from({ length: n }, (_, k) => ({ name: name(k), content })));
};
/** The entries of `zip` all lead to its first local header. */
const overlapping = (): Uint8Array => {
  const names = ['a/depth.tif', 'b/depth.tif', 'c/depth.tif', 'd/depth.tif'];
  const zip = zipOf(names.map((name) => ({ name, content: zeros(90) })));
  const view = new DataView(zip.buffer);
  for (let at = 0; at < zip.length - 46; at++)
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 42, 0, true);
  return zip;
};

const ZIPS: Record<string, () => Uint8Array | Promise<Uint8Array>> = {
  'bomb that tells its size, 1 GB': () => zipOf([{ name: 'depth.tif', content: zeros(1000) }]),
  'bomb that says 100 bytes': () =>
    zipOf([{ name: 'depth.tif', content: zeros(1000), says: { size: 100 } }]),
  'bomb that says 399 MB': () =>
    zipOf([{ name: 'depth.tif', content: zeros(1000), says: { size: 399e6 } }]),
  'bomb in twelve files, 40 MB each': () =>
    zipOf(Array.from({ length: 12 }, (_, k) => ({ name: `${k}/depth.tif`, content: zeros(40) }))),
  'bomb in a file that is not of a survey': () =>
    zipOf([{ name: 'photo.jpg', content: zeros(1000) }, table]),
  'says 4 GB and holds 20 bytes': () => zipOf([{ ...table, says: { size: 0xfffffffe } }]),
  'says 399 MB and holds 20 bytes': () => zipOf([{ ...table, says: { size: 399e6 } }]),
  'says less than it holds': () => zipOf([{ ...table, says: { size: 15 } }]),
  'wrong checksum': () => zipOf([{ ...table, says: { crc: 1 } }]),
  '60,000 entries': () => many(60_000, (k) => `${k}.txt`),
  '300,000 entries': () => many(300_000, (k) => `${k}/transects.csv`),
  'names that climb': () => zipOf([{ ...table, name: '../../../etc/transects.csv' }]),
  'absolute names': () => zipOf([{ ...table, name: '/etc/transects.csv' }]),
  'names with backslashes': () => zipOf([{ ...table, name: 'C:\\pond\\transects.csv' }]),
  'a name of 60,000 letters': () =>
    zipOf([{ ...table, name: `${'x'.repeat(60_000)}/transects.csv` }]),
  'a zip in a zip': () => zipOf([{ name: 'pond.zip', content: zipOf([table]) }]),
  'locked with a password': () => zipOf([{ ...table, says: { flags: 0x0801 } }]),
  'packed in an unknown way': () => zipOf([{ ...table, says: { method: 77 } }]),
  'packed, and said not to be': () => zipOf([{ ...table, says: { method: 0 } }]),
  'one file twice': () => zipOf([table, table]),
  'one file twice but for capitals': () => zipOf([table, { ...table, name: 'Pond/TRANSECTS.csv' }]),
  'entries on one place': overlapping,
  'a comment of 65,535 letters': () => {
    const zip = zipOf([table]);
    const long = new Uint8Array(zip.length + 65_535).fill(120);
    long.set(changed(zip, 2, 0xff, 0xff));
    return long;
  },
  'cut off in the middle': () => zipOf([table]).subarray(0, 60),
  'a directory beyond the end': () => changed(zipOf([table]), 6, 0xff, 0xff, 0xff, 0x7f),
  'sizes that ask for zip64, which is not there': () =>
    changed(zipOf([table]), 14, 0xff, 0xff, 0xff, 0xff),
  'sound, 300 MB': () => packZip(new Map([['depth.tif', zeros(300)]]), '2026-07-01T10:00:00Z'),
};

const [name] = process.argv.slice(2);
if (name === undefined) {
  for (const key of Object.keys(ZIPS)) {
    const done = spawnSync(
      process.execPath,
      ['--import', 'tsx', fileURLToPath(import.meta.url), key],
      { encoding: 'utf8', timeout: 120_000 },
    );
    console.log(`${key}: ${done.stdout.trim() || `no answer (${done.signal}) ${done.stderr}`}`);
  }
} else await opened(name);

/** Memory is that beyond what the process had with the zip made. */
async function opened(key: string): Promise<void> {
  const make = ZIPS[key];
  if (make === undefined) throw new Error(`got the zip "${key}", expected a known one`);
  const zip = await make();
  globalThis.gc?.();
  let most = 0;
  const before = process.memoryUsage().rss;
  const watch = setInterval(() => {
    most = Math.max(most, process.memoryUsage().rss - before);
  }, 5);
  const begun = process.cpuUsage();
  let outcome: string;
  try {
    const files = await unpackSurvey(new Blob([zip as BlobPart]));
    outcome = `opened, ${files.map((f) => `${f.path.slice(-24)} ${f.bytes.length}`).join(', ')}`;
  } catch (error) {
    if (!(error instanceof BadZip)) throw error;
    outcome = error.message.slice(0, 140);
  }
  clearInterval(watch);
  most = Math.max(most, process.memoryUsage().rss - before);
  const { user, system } = process.cpuUsage(begun);
  const ms = Math.round((user + system) / 1000);
  console.log(`${ms} ms, ${Math.round(most / 1e6)} MB, ${outcome}`);
}
