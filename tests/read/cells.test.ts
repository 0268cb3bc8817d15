/** Cells: the grammar of numbers, times, dates and classes. Expected values by hand from the grammar. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Column, DETECTIONS, HABITAT, TABLES, TRANSECTS } from '../../shared/tables.ts';
import { parseNumber, readCell } from '../../src/read/cells.ts';

const CLASSES = ['mud', 'Sand', 'gravel'];

function column(name: string): Column {
  const found = TABLES.flatMap((table) => table.columns).find(
    (candidate) => candidate.name === name,
  );
  if (found === undefined) throw new Error(`no column ${name}`);
  return found;
}

const value = (name: string, text: string) => {
  const result = readCell(column(name), text, CLASSES);
  return 'value' in result ? result.value : result.fault.code;
};

describe('numbers', () => {
  it.each([
    ['30', 30],
    ['+30', 30],
    ['-3', -3],
    ['30.', 30],
    ['.5', 0.5],
    ['0.50', 0.5],
    ['1e3', 1000],
    ['1E+3', 1000],
    ['2.5e-1', 0.25],
    ['007', 7],
  ])('%s is a number', (text, expected) => {
    expect(parseNumber(text)).toBe(expected);
  });

  it.each([
    '',
    '.',
    '+',
    'e3',
    '1e',
    '1e400',
    '1,5',
    '1 000',
    '0x1F',
    '1_0',
    '--1',
    '1.2.3',
    '١',
    '½',
    'NaN',
    'Infinity',
  ])('%s is none', (text) => {
    expect(parseNumber(text)).toBeNull();
  });

  it('what a finite number prints is read back as the same number', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
        expect(parseNumber(String(x)) === x).toBe(true);
      }),
      { seed: 1 },
    );
  });

  it('a count may be written with an exponent or a point, as long as it is whole', () => {
    expect(value('count', '1e3')).toBe(1000);
    expect(value('count', '2.0')).toBe(2);
    expect(value('count', '100000')).toBe(100_000);
    expect(value('plant_cover', '4.0')).toBe(4);
  });

  it('limits are where they are said to be', () => {
    expect(value('length_m', '1000')).toBe(1000);
    expect(value('length_m', '0.001')).toBe(0.001);
    expect(value('bearing_deg', '0')).toBe(0);
    expect(value('bearing_deg', '359.99')).toBe(359.99);
    expect(value('start_lat', '-90')).toBe(-90);
    expect(value('start_lon', '180')).toBe(180);
    expect(value('clarity_m', '0')).toBe(0);
    expect(value('depth_m', '0')).toBe(0);
  });
});

describe('times', () => {
  it.each([
    ['4:30', 4.5],
    ['0:06', 0.1],
    ['75:00', 75],
    ['4.5', 4.5],
    ['1e1', 10],
  ])('%s is %d minutes', (text, expected) => {
    expect(value('search_min', text)).toBeCloseTo(expected, 12);
  });

  it.each(['7:75', '7:60', '7:5', ':30', '7:', '-1:30', '1:02:03', '7:30.5'])(
    '%s is no time',
    (text) => {
      expect(value('search_min', text)).toBe('invalid-time');
    },
  );
});

describe('dates', () => {
  it.each(['2024-02-29', '2000-02-29', '2025-12-31', '1999-01-01'])('%s is one', (text) => {
    expect(value('date', text)).toBe(text);
  });

  it.each([
    '2025-02-29',
    '1900-02-29',
    '2025-04-31',
    '2025-06-00',
    '2025-13-01',
    '25-06-01',
    '2025-06-01T00:00',
  ])('%s is none', (text) => {
    expect(value('date', text)).toBe('invalid-date');
  });

  it('agrees with the calendar of the runtime', () => {
    const day = fc.record({
      y: fc.integer({ min: 1000, max: 9999 }),
      m: fc.integer({ min: 0, max: 13 }),
      d: fc.integer({ min: 0, max: 32 }),
    });
    fc.assert(
      fc.property(day, ({ y, m, d }) => {
        const text = `${y}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
        const date = new Date(Date.UTC(y, m - 1, d));
        const real = date.toISOString().startsWith(text);
        expect(value('date', text)).toBe(real ? text : 'invalid-date');
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

describe('listed values and classes', () => {
  it('match without regard to case and take the spelling of the list', () => {
    expect(value('design', 'BELT')).toBe('belt');
    expect(value('stop', 'Rope_End')).toBe('rope_end');
    expect(value('substrate', 'SAND')).toEqual(['Sand']);
    expect(value('substrate', 'Gravel + sand')).toEqual(['gravel', 'Sand']);
  });

  it('keep the order, the dominant one first', () => {
    expect(value('substrate', 'mud+gravel')).toEqual(['mud', 'gravel']);
    expect(value('substrate', 'gravel+mud')).toEqual(['gravel', 'mud']);
  });

  it.each(['+', 'mud+', '+mud', 'mud++sand'])('%s lacks a class', (text) => {
    expect(value('substrate', text)).toBe('empty-substrate');
  });

  it('are not judged when the list could not be read', () => {
    expect(readCell(column('substrate'), 'cobble+slate', null)).toEqual({
      value: ['cobble', 'slate'],
    });
  });
});

it('every column reads its own example', () => {
  for (const table of [TRANSECTS, HABITAT, DETECTIONS]) {
    for (const each of table.columns) {
      const result = readCell(each, each.example, ['sand', 'gravel']);
      expect(result, `${table.file} ${each.name}`).toHaveProperty('value');
    }
  }
});
