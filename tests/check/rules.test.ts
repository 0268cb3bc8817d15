/** Where the limits of the rules lie. Every expected verdict by hand from the rule beside it. */

import { describe, expect, it } from 'vitest';
import type { Finding } from '../../shared/findings.ts';
import { checkSurvey } from '../../src/check/index.ts';
import { readFolder } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, type Bend, edit, setCell, setRow } from '../helpers/bend.ts';

const T = 'transects.csv';
const H = 'habitat.csv';
const D = 'detections.csv';

async function findings(bend: Bend): Promise<Finding[]> {
  const texts = baseSurvey();
  bend(texts);
  const reading = await readFolder(toFolder(texts));
  return [...reading.findings, ...checkSurvey(reading)];
}

async function codes(bend: Bend): Promise<string[]> {
  return (await findings(bend)).map(({ code }) => code);
}

describe('distances', () => {
  it('a detection at exactly the rope length is on the rope', async () => {
    expect(await codes(setCell(D, 5, 'distance_m', '30'))).toEqual([]);
  });

  it('binary dust is no fault: 0.1 + 0.2 on a rope of 0.3', async () => {
    const bend = all(
      addRow(T, 'S,2025-07-01,belt,Ann,Ben,45.0008,-92.9999,,,90,true,0.3,,6,,,,,'),
      addRow(H, 'S,0,sand,0,1'),
      addRow(H, 'S,0.30000000000000004,,,1.05'),
      addRow(D, 'S,primary,0.30000000000000004,,1,,'),
    );
    expect(await codes(bend)).toEqual([]);
  });

  it('a row 5 mm before the end is the end row, one 6 mm before is a habitat', async () => {
    expect(await codes(setCell(H, 5, 'distance_m', '29.995'))).toEqual([]);
    expect(await codes(setCell(H, 5, 'distance_m', '30.005'))).toEqual([]);
    expect(await codes(setCell(H, 5, 'distance_m', '29.994'))).toEqual([
      'missing-value',
      'missing-value',
    ]);
    expect(await codes(setRow(H, 5, 'T1,29.994,mud,0,3.8'))).toEqual([]);
  });

  it('no end row is fine', async () => {
    expect(await codes(edit(H, (text) => text.replaceAll(/^.*,30,.*\n/gm, '')))).toEqual([]);
  });

  it('transects may be told in turns as long as each is in order', async () => {
    const bend = edit(H, (text) => {
      const lines = text.trim().split('\n');
      const turns = [0, 1, 2, 3].flatMap((i) =>
        [0, 1, 2, 3, 4, 5].map((t) => lines[1 + 4 * t + i]),
      );
      return [lines[0], ...turns].join('\n');
    });
    expect(await codes(bend)).toEqual([]);
  });
});

describe('a rope of 30 m that is written in feet', () => {
  // 0.3048 m a foot exactly (NIST SP 811, appendix B): 98.43 ft = 30.001464 m, 98.5 ft = 30.0228 m, 98.7 ft = 30.08376 m
  it.each([
    ['98.43 ft', '30.001464', []],
    ['98.5 ft', '30.0228', []],
    ['98.7 ft', '30.08376', ['rope-over-30-m']],
  ])('%s', async (_, length, told) => {
    expect(
      await codes(all(setCell(T, 2, 'length_m', length), setCell(H, 5, 'distance_m', length))),
    ).toEqual(told);
  });
});

describe('a wrong length of the rope', () => {
  const messages = async (bend: Bend) => {
    const texts = baseSurvey();
    bend(texts);
    const reading = await readFolder(toFolder(texts));
    return checkSurvey(reading).map(({ table, row, message }) => `${table} ${row}: ${message}`);
  };

  it('is named where several rows lie past it, with the row of transects.csv', async () => {
    const told = await messages(setCell(T, 2, 'length_m', '3'));
    const past = told.filter((text) => text.includes("past the rope's end"));
    expect(past.filter((text) => text.startsWith(H)).length).toBeGreaterThan(1);
    for (const text of past)
      expect(text).toMatch(
        /; \d+ rows of the transect lie past it: length_m in transects\.csv row 2 is the likely cause \(its end row stands at 30 m\)$/,
      );
  });

  it('is asked for where one row does', async () => {
    const told = await messages(setCell(H, 5, 'distance_m', '35'));
    expect(told).toEqual([
      `${H} 5: 35 m is past the rope's end (length_m of the transect is 30); is length_m in transects.csv row 2 right?`,
    ]);
  });

  it('is named where the end row stands before the end', async () => {
    const told = await messages(setCell(T, 2, 'length_m', '300'));
    const blank = told.filter((text) => text.startsWith(`${H} 5`));
    expect(blank).toHaveLength(2);
    for (const text of blank)
      expect(text).toContain(
        'if this is the end row, length_m in transects.csv row 2 is the likely cause (30 expected)',
      );
  });
});

describe('depths', () => {
  it('a change by exactly the rope is left to the placing of transects', async () => {
    expect(await codes(setCell(H, 5, 'depth_m', '11'))).toEqual([]);
    expect(await codes(setCell(H, 5, 'depth_m', '11.000001'))).toEqual(['depth-change-above-rope']);
  });

  it('two steps that are both too steep are told both', async () => {
    // 0.8 to 20 over 12 m, 20 to 35 over 10 m; the last row, 3.8, fits the first again
    const bend = all(setCell(H, 3, 'depth_m', '20'), setCell(H, 4, 'depth_m', '35'));
    const found = await codes(bend);
    expect(found.filter((code) => code === 'depth-change-above-rope')).toHaveLength(2);
  });

  it('a rise of 0.3 m is within what gauges do, more is not', async () => {
    expect(await codes(setCell(H, 5, 'depth_m', '2.7'))).toEqual([]);
    expect(await codes(setCell(H, 5, 'depth_m', '2.69'))).toEqual(['depth-falls-then-rises']);
  });

  it('a search at 40 m is not yet suspected of feet', async () => {
    const deep = (row: number, depth: string) => setCell(H, row, 'depth_m', depth);
    const at40 = all(deep(2, '37'), deep(3, '38'), deep(4, '39'), deep(5, '40'));
    expect(await codes(at40)).toEqual([]);
  });
});

describe('offsets', () => {
  it('half the width is within, on the default width and on another', async () => {
    expect(await codes(setCell(D, 18, 'offset_m', '1'))).toEqual([]);
    expect(
      await codes(all(setCell(T, 5, 'width_m', '3'), setCell(D, 18, 'offset_m', '1.5'))),
    ).toEqual([]);
  });

  it('a bad width leaves offsets unjudged', async () => {
    const bend = all(setCell(T, 5, 'width_m', 'x'), setCell(D, 18, 'offset_m', '1.4'));
    expect(await codes(bend)).toEqual(['not-a-number']);
  });
});

describe('double counts', () => {
  /** Of each transect the secondary's detection, at the primary's second one: 14.2 m and a quarter of a metre more on each. */
  const again = (transects: number[], besideM = 0) =>
    all(
      ...transects.flatMap((i) => [
        setCell(D, 6 + 5 * i, 'distance_m', (14.2 + i / 4 + besideM).toFixed(2)),
        ...(i < 3 ? [] : [setCell(D, 6 + 5 * i, 'offset_m', (0.35 + i / 20).toFixed(2))]),
      ]),
    );

  it('one pair is chance, one on each transect is not', async () => {
    expect(await codes(again([0]))).toEqual([]);
    expect(await codes(again([0, 1, 2, 3, 4, 5]))).toEqual(['possible-double-count']);
    expect(await codes(again([0, 1, 2, 3, 4, 5], 0.06))).toEqual([]);
  });

  it('many pairs on one transect are told of it alone', async () => {
    const rows = [3.52, 14.23, 23.08, 26.41, 8, 8.02, 11, 11.03, 20, 20.01];
    const bend = all(
      ...rows.map((m, i) =>
        addRow(D, `T1,${i > 3 && i % 2 === 0 ? 'primary' : 'secondary'},${m},,1,,`),
      ),
    );
    expect(await codes(bend)).toEqual(['possible-double-count']);
  });

  it('of very many, the first are named by their rows and the others counted', async () => {
    // 5 of each observer within 4 cm: 25 pairs
    const beside = [23, 23.01, 23.02, 23.03, 23.04];
    const written = ['primary', 'secondary'].flatMap((role) =>
      beside.map((m) => `T1,${role},${m},,1,,`),
    );
    const [found, ...others] = await findings(all(...written.map((row) => addRow(D, row))));
    expect(others).toEqual([]);
    expect(found.message).toMatch(/^25 pairs of detections/);
    expect(found.message.match(/\d+ with \d+/g)).toHaveLength(20);
    expect(found.message).toContain(' and 5 more)');
  });

  it('two detections of one observer are two clusters', async () => {
    expect(await codes(setCell(D, 4, 'distance_m', '14.21'))).toEqual([]);
  });

  it('a rope of no length, and distances that cannot be read, are told by others', async () => {
    expect(await codes(all(again([0]), setCell(D, 6, 'distance_m', 'x')))).toEqual([
      'not-a-number',
    ]);
  });
});

describe('divers', () => {
  it('a swap on two-pass transects of another design does not help', async () => {
    const bend = all(setCell(T, 3, 'primary', 'Ann'), setCell(T, 3, 'secondary', 'Cy'));
    expect(await codes(bend)).toEqual(['roles-never-swapped']);
  });

  it('one swapped pair is enough', async () => {
    expect(
      await codes(all(setCell(T, 4, 'primary', 'Cy'), setCell(T, 4, 'secondary', 'Dee'))),
    ).toEqual([]);
  });

  it('a primary on a single pass does not count as a swap', async () => {
    // T2 becomes a single pass by Ben, so Ben was never primary on a two-pass belt
    const bend = all(setCell(T, 3, 'secondary', ''), setRow(D, 11, ',,,,,,'));
    expect(await codes(bend)).toEqual(['roles-never-swapped']);
  });

  it('a fault in a role leaves the question open', async () => {
    const bend = all(setCell(T, 3, 'primary', ''), setCell(T, 3, 'secondary', 'Ben'));
    expect(await codes(bend)).toEqual(['missing-value']);
  });
});

describe('references', () => {
  it('a blank label of a transect explains one lost transect, but not a second', async () => {
    const lost = edit(H, (text) => text.replaceAll('T6,', 'T7,'));
    const found = await codes(all(setCell(T, 5, 'transect', ''), lost));
    expect(found.filter((code) => code === 'unknown-transect')).not.toEqual([]);
    expect(found).toContain('missing-value');
  });

  it('a table that lost rows to a quote makes no row of another table an orphan', async () => {
    expect(await codes(setCell(T, 4, 'notes', '"calm'))).toEqual(['unclosed-quotes']);
  });
});

it('the checks change no record', async () => {
  const texts = baseSurvey();
  const reading = await readFolder(toFolder(texts));
  const before = structuredClone(reading.survey);
  checkSurvey(reading);
  expect(reading.survey).toEqual(before);
});
