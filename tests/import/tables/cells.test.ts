/** Single cells: numbers, coordinates, dates and times as people write them. Expected values by hand where no source is named. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCoordinate, readPair } from '../../../src/import/tables/coordinates.ts';
import { inOrder, readDate } from '../../../src/import/tables/dates.ts';
import { readDuration } from '../../../src/import/tables/durations.ts';
import { headerOf } from '../../../src/import/tables/names.ts';
import { commaReading, readNumber } from '../../../src/import/tables/numbers.ts';

const RUN = { seed: 2026, numRuns: 300 };

describe('numbers', () => {
  it.each([
    ['12', false, '12', 12, null],
    ['-0.50', false, '-0.50', -0.5, null],
    ['−3', false, '-3', -3, null],
    ['.5', false, '0.5', 0.5, null],
    ['3.', false, '3', 3, null],
    ['1e3', false, '1e3', 1000, null],
    ['3,5', true, '3.5', 3.5, null],
    ['3,5', false, '3.5', 3.5, null],
    ['1,234', false, '1234', 1234, null],
    ['1,234', true, '1.234', 1.234, null],
    ['0,234', false, '0.234', 0.234, null],
    ['1.234', true, '1.234', 1.234, null],
    ['1.234,5', true, '1234.5', 1234.5, null],
    ['1,234,567.8', false, '1234567.8', 1_234_567.8, null],
    ['1 234,5', true, '1234.5', 1234.5, null],
    ['12 ft', false, '12', 12, 'ft'],
    ['12.5m', false, '12.5', 12.5, 'm'],
    ['50%', false, '50', 50, '%'],
    [`4'6"`, false, '4.5', 4.5, 'ft'],
    ['137°', false, '137', 137, 'deg'],
  ])('%s (decimal comma %s) is %s', (text, comma, written, value, unit) => {
    expect(readNumber(text, comma)).toEqual({ text: written, value, unit });
  });

  it.each([
    '20+',
    '~30',
    '>20',
    '<1',
    'lots',
    '10-20',
    '1,2,3',
    '3O',
    '',
    '.',
    '12 mussels',
    '1.2.3',
    'NaN',
    '0x1F',
    '1e999',
  ])('%j is none', (text) => {
    expect(readNumber(text, false)).toBeNull();
  });

  it('come back from any way of writing them', () => {
    const number = fc.tuple(
      fc.integer({ min: -99_999, max: 99_999 }),
      fc.integer({ min: 0, max: 3 }),
    );
    fc.assert(
      fc.property(number, fc.boolean(), ([digits, decimals], comma) => {
        const plain = (digits / 10 ** decimals).toFixed(decimals);
        // a comma before exactly three decimals is only plain in a table of decimal commas
        const written = comma ? plain.replace('.', ',') : plain;
        expect(readNumber(written, comma)?.value).toBe(Number(plain) + 0);
      }),
      RUN,
    );
  });

  it('any text: no exception, and never a number that is not finite', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'0123456789.,+- eE\'"ftm%'), maxLength: 12 }),
        fc.boolean(),
        (text, comma) => {
          const read = readNumber(text, comma);
          if (read !== null) expect(Number.isFinite(read.value)).toBe(true);
        },
      ),
      RUN,
    );
  });

  it('what commas mean is read from the whole table', () => {
    expect(commaReading(['3,5', '1,234', 'a'])).toEqual({ reading: 'decimal', cells: 2 });
    expect(commaReading(['1,234', '2.5'])).toEqual({ reading: 'thousands', cells: 1 });
    expect(commaReading(['1,234', '5'])).toEqual({ reading: 'either', cells: 1 });
  });
});

describe('coordinates', () => {
  // 44° 25.017' = 44 + 25.017/60; 44° 25' 1.02" = 44 + 25/60 + 1.02/3600
  it.each([
    ['44.41695', 44.41695, '44.41695'],
    ['-84,959639', -84.959639, '-84.959639'],
    ['44.41695 N', 44.41695, '44.41695'],
    ['W84.959639°', -84.959639, '-84.959639'],
    ['44 25.017', 44.41695, '44.41695'],
    ['N44° 25.017′', 44.41695, '44.41695'],
    ['44°25\'01.02"N', 44.41695, '44.41695'],
    ['84:57:34.7 W', -84.9596389, '-84.9596389'],
    ['-84 57.578', -84.9596333, '-84.9596333'],
    ['33 S', -33, '-33'],
    ['44 deg 25.017 min', 44.41695, '44.41695'],
  ])('%s', (text, degrees, written) => {
    const read = readCoordinate(text, true);
    // half of the last decimal that is kept
    expect(read?.degrees).toBeCloseTo(degrees, 7);
    expect(read?.text).toBe(written);
  });

  it.each(['44 75.0', '44.5 30', 'north', '', '44 25 61', '44 25.5 10', '1 2 3 4'])(
    '%j is none',
    (text) => {
      expect(readCoordinate(text, false)).toBeNull();
    },
  );

  it('any degrees in decimals, minutes and seconds, with sign or letter', () => {
    const seconds = fc.integer({ min: -180 * 3_600_000, max: 180 * 3_600_000 });
    fc.assert(
      fc.property(
        seconds,
        fc.constantFrom('decimal', 'minutes', 'seconds'),
        fc.boolean(),
        (ms, form, letters) => {
          const size = Math.abs(ms) / 3_600_000;
          const whole = Math.floor(size);
          const minutes = (Math.abs(ms) % 3_600_000) / 60_000;
          const rest = ((Math.abs(ms) % 60_000) / 1000).toFixed(3);
          const parts =
            form === 'decimal'
              ? size.toFixed(9)
              : form === 'minutes'
                ? `${whole}° ${minutes.toFixed(7)}'`
                : `${whole}°${Math.floor(minutes)}'${rest}"`;
          if (/ 60\.0/.test(parts)) return;
          const written = letters
            ? `${parts} ${ms < 0 ? 'W' : 'E'}`
            : `${ms < 0 ? '-' : ''}${parts}`;
          // written to 1e-9° or 1e-7′
          expect(
            Math.abs((readCoordinate(written, false)?.degrees ?? 999) - ms / 3_600_000),
          ).toBeLessThan(3e-9);
        },
      ),
      RUN,
    );
  });

  it.each([
    ['44.41695, -84.959639'],
    ['44.41695 -84.959639'],
    ['44.41695;-84.959639'],
    ['(44.41695, -84.959639)'],
    ['N 44 25.017 W 084 57.57834'],
    ['W84.959639 N44.41695'],
    ['44°25\'01.02"N 84°57\'34.7004"W'],
  ])('both in one cell: %s', (text) => {
    const pair = readPair(text, false);
    expect(pair?.lat.degrees).toBeCloseTo(44.41695, 7);
    expect(pair?.lon.degrees).toBeCloseTo(-84.959639, 7);
  });
});

describe('dates', () => {
  it.each([
    ['2026-06-29', '2026-06-29'],
    ['2026/6/9', '2026-06-09'],
    ['20260629', '2026-06-29'],
    ['29.06.2026', '2026-06-29'],
    ['6/29/26', '2026-06-29'],
    ['29 June 2026', '2026-06-29'],
    ['Jun 29, 2026', '2026-06-29'],
    ['Mon, 29-Jun-26', '2026-06-29'],
    ['2026-06-29 14:30', '2026-06-29'],
    ['6/29/2026 2:30 PM', '2026-06-29'],
    // ECMA-376 part 1, 18.17.4: day 46,202 after 31 December 1899, with the leap day that never was
    ['46202', '2026-06-29'],
    ['5/5/2026', '2026-05-05'],
    ['29 Feb 2028', '2028-02-29'],
  ])('%s', (text, iso) => {
    expect(readDate(text)).toEqual({ kind: 'day', iso });
  });

  it.each([
    '29 Feb 2026',
    '31/31/2026',
    '6/2026',
    '3-Apr',
    'June',
    '',
    '12',
    '2026-13-01',
    '99999',
  ])('%j is none', (text) => {
    expect(readDate(text)).toBeNull();
  });

  it('two readings where both are days', () => {
    const read = readDate('7/6/2026')!;
    expect(read.kind).toBe('either');
    expect(inOrder(read, 'month-first')).toBe('2026-07-06');
    expect(inOrder(read, 'day-first')).toBe('2026-06-07');
  });
});

describe('times spent', () => {
  it.each([
    ['4.5', 'min', '4.5'],
    ['4:30', 'min', '4:30'],
    ['00:04:30', 'min', '4:30'],
    ['01:04:30', 'min', '64:30'],
    ['4 min 30 s', 'min', '4:30'],
    ['4\'30"', 'min', '4:30'],
    ['90', 's', '1.5'],
    ['1.5', 'h', '90'],
    ['15 min', 'min', '15'],
    ['1h 5m', 'min', '65:00'],
  ] as const)('%s in a column of %s is %s', (text, unit, written) => {
    expect(readDuration(text, unit, false, true)?.text).toBe(written);
  });

  it('a clock that a spreadsheet has made of minutes and seconds', () => {
    expect(readDuration('03:10:00', 'min', false, true)).toEqual({ text: '3:10', doubtful: true });
    expect(readDuration('03:10:00', 'min', false, false)).toEqual({
      text: '190:00',
      doubtful: true,
    });
    // 31:00 typed is 31 hours, which a date format shows as the first of January 1900, 07:00
    expect(readDuration('1900-01-01T07:00:00', 'min', false, true)?.text).toBe('31:00');
  });

  it.each(['4:75', 'long', '10+'])('%j is none', (text) => {
    expect(readDuration(text, 'min', false, true)).toBeNull();
  });
});

describe('headers', () => {
  it.each([
    ['Depth (ft)', 'depth', 'ft', null],
    ['depth_m', 'depth', 'm', null],
    ['Perp. dist [cm]', 'perp dist', 'cm', null],
    ['StartLat', 'start lat', null, null],
    ['Transect #', 'transect number', null, null],
    ['Bearing (mag)', 'bearing', null, 'mag'],
    ['Tiefe, m', 'tiefe', 'm', null],
    ['Time in', 'time in', null, null],
    ['Länge (Zoll)', 'lange', null, 'Zoll'],
  ])('%s', (text, key, unit, note) => {
    expect(headerOf(text)).toMatchObject({ key, text, unit, note });
  });
});
