/** Zips that are broken or meant to break something: refused in a sentence, before they take memory or time. */

import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { BadZip, unpackSurvey } from '../../src/app/storage/survey-zip.ts';
import { packZip } from '../../src/publish/pack-zip.ts';
import { type ZipMember, zipOf } from '../helpers/zips.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (content: Uint8Array): string => new TextDecoder().decode(content);
const table: ZipMember = {
  name: 'pond/transects.csv',
  content: bytes('transect,date\r\n1,2026-07-01\r\n'),
};

describe('a sound zip', () => {
  it('gives the files of a survey, wherever they lie, and leaves others alone', async () => {
    const zip = zipOf([
      table,
      { name: 'pond/photo.jpg', content: bytes('not a survey file') },
      { name: 'pond/maps/OUTLINE.geojson', content: bytes('{}') },
      { name: '__MACOSX/pond/transects.csv', content: bytes('of a file manager') },
    ]);
    const loose = await unpackSurvey(zip);
    expect(loose.map((f) => f.path)).toEqual(['pond/transects.csv', 'pond/maps/OUTLINE.geojson']);
    expect(text(loose[0].bytes)).toBe(text(table.content));
  });

  it('is what we pack, and another reader opens it', async () => {
    const files = new Map<string, Uint8Array | string>([
      ['transects.csv', 'transect\r\n1\r\n'],
      ['depth.tif', Uint8Array.from([0, 255, 7])],
      ['habitat.csv', ''],
    ]);
    const zip = await packZip(files, '2026-07-01T10:00:00.000Z');
    const read = unzipSync(zip); // fflate, an independent implementation
    expect(text(read['transects.csv'])).toBe('transect\r\n1\r\n');
    expect([...read['depth.tif']]).toEqual([0, 255, 7]);
    const back = await unpackSurvey(new Blob([zip as BlobPart]));
    expect(back.map((f) => [f.path, f.bytes.length])).toEqual([
      ['transects.csv', 13],
      ['depth.tif', 3],
      ['habitat.csv', 0],
    ]);
  });
});

describe('refused in a sentence', () => {
  const zeros = new Uint8Array(3_000_000);
  const cases: [string, () => Uint8Array, RegExp][] = [
    [
      'a bomb that says its true size',
      () => zipOf([1, 2, 3, 4].map((i) => ({ name: `${i}/depth.tif`, content: zeros }))),
      /unpacks to more than 10 MB/,
    ],
    [
      'a bomb that says it is small',
      () => zipOf([{ name: 'depth.tif', content: zeros, says: { size: 100 } }]),
      /depth\.tif in the zip/,
    ],
    [
      'a table that is said to be longer than it is',
      () => zipOf([{ ...table, says: { size: 4_000 } }]),
      /transects\.csv in the zip/,
    ],
    [
      'a table that is said to be shorter than it is: it would open without its last rows',
      () => zipOf([{ ...table, says: { size: 15 } }]),
      /transects\.csv in the zip/,
    ],
    [
      'a checksum that is not that of the bytes',
      () => zipOf([{ ...table, says: { crc: 1 } }]),
      /transects\.csv in the zip is damaged/,
    ],
    ['one file twice', () => zipOf([table, table]), /holds pond\/transects\.csv twice/],
    [
      'one file twice but for capitals',
      () => zipOf([table, { ...table, name: 'pond/Transects.csv' }]),
      /twice/,
    ],
    [
      'more files than any survey',
      () =>
        zipOf(Array.from({ length: 60 }, (_, i) => ({ name: `${i}.txt`, content: bytes('x') }))),
      /more than 50 files/,
    ],
    [
      'files of more surveys than one, before any of them is unpacked',
      () =>
        zipOf(
          Array.from({ length: 13 }, (_, i) => ({
            name: `${i}/transects.csv`,
            content: bytes('x'),
            says: { crc: 1 }, // would be told if it were unpacked
          })),
        ),
      /more than 12 files of surveys/,
    ],
    [
      'a way of packing that nobody knows',
      () => zipOf([{ ...table, says: { method: 77 } }]),
      /transects\.csv in the zip is damaged/,
    ],
    [
      'a file under a password',
      () => zipOf([{ ...table, says: { flags: 0x0801 } }]),
      /locked with a password/,
    ],
    ['no zip at all', () => bytes('transect,date\r\n'), /cannot be read/],
    ['nothing', () => new Uint8Array(0), /cannot be read/],
    ['a zip cut off in the middle', () => zipOf([table]).subarray(0, 60), /cannot be read/],
    [
      'a directory that points beyond the file',
      () => {
        const zip = zipOf([table]);
        zip[zip.length - 6] = 0xff;
        zip[zip.length - 5] = 0xff;
        return zip;
      },
      /cannot be read/,
    ],
  ];

  it.each(cases)('%s', async (_, zip, says) => {
    const limits = { bytes: 10_000_000, entries: 50, files: 12 };
    await expect(unpackSurvey(zip(), limits)).rejects.toThrow(BadZip);
    await expect(unpackSurvey(zip(), limits)).rejects.toThrow(says);
  });

  it('any zip with one byte changed: the same files, or a sentence', async () => {
    const sound = zipOf([table]);
    const before = await unpackSurvey(sound);
    let refused = 0;
    for (let i = 0; i < sound.length; i++) {
      const zip = Uint8Array.from(sound);
      zip[i] ^= 0xff;
      try {
        const after = await unpackSurvey(zip);
        // a changed name or time: then it is another file or none, never other bytes under the same name
        for (const file of after) expect(text(file.bytes)).toBe(text(before[0].bytes));
      } catch (error) {
        expect(error).toBeInstanceOf(BadZip);
        refused += 1;
      }
    }
    expect(refused).toBeGreaterThan(sound.length / 3);
  });
});
