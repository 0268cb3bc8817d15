/**
 * Who, which and how many: roles, labels, cells. Each slip of typed sheets is made in a sound survey, found, and its
 * repair gives back the cells as they were; or the program says why it cannot know. What is expected is the sound
 * survey itself, whose cells the repairs never see.
 */

import { describe, expect, it } from 'vitest';
import { textTables } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, type Bend, edit, setCell } from '../helpers/bend.ts';
import { applied, bent, cannotKnow, D, H, judged, restores, T } from './slips.ts';

describe('a sound survey', () => {
  it('has nothing to repair', async () => {
    expect((await judged(baseSurvey())).repairs).toEqual([]);
  });
});

describe('roles', () => {
  it.each([2, 3, 4, 5, 6, 7])('a primary that is missing in row %i is the partner', async (row) => {
    await restores(setCell(T, row, 'primary', ''), 'missing-value');
  });

  it.each([2, 5])(
    'a secondary that is missing in row %i, where a secondary found clusters',
    async (row) => {
      await restores(setCell(T, row, 'secondary', ''), 'secondary-on-single-pass');
    },
  );

  it('one observer in both roles', async () => {
    await restores(setCell(T, 3, 'secondary', 'Ben'), 'same-diver-twice');
  });

  it.each([2, 3, 4, 5, 6, 20, 26, 31])('the role of detection row %i', async (row) => {
    await restores(setCell(D, row, 'role', ''), 'missing-value');
  });

  it('is certain on a single pass alone', async () => {
    const single = all(
      setCell(T, 2, 'secondary', ''),
      edit(D, (text) => text.replace(/^T1,secondary.*\n/m, '')),
      setCell(D, 3, 'role', ''),
    );
    const { repairs } = await judged(bent(single));
    expect(repairs.map(({ certain, title }) => [certain, title])).toEqual([
      [true, 'Set role to primary (row 3)'],
    ]);
  });

  it('never swapped: the tables cannot tell', async () => {
    const one = edit(T, (text) => text.replaceAll('Ben,Ann', 'Ann,Ben'));
    await cannotKnow(one, 'roles-never-swapped', /only the sheets tell/);
  });
});

describe('labels', () => {
  const named = (from: string, to: string, files = [T, H, D]): Bend =>
    all(
      ...files.map((file) =>
        edit(file, (text) => text.replaceAll(new RegExp(`^${from},`, 'gm'), `${to},`)),
      ),
    );
  const numbered = () => bent(...[1, 2, 3, 4, 5, 6].map((i) => named(`T${i}`, `3-${i}`)));

  it.each(['3-Apr', '2026-04-03', '03-Apr', '4/3/2026'])(
    '3-4 that became %s in one table',
    async (date) => {
      await restores(named('3-4', date, [T]), 'unknown-transect', undefined, numbered());
    },
  );

  it('3-4 that became 3-Apr everywhere: the series tells', async () => {
    await restores(named('3-4', '3-Apr'), 'label-like-date', undefined, numbered());
  });

  it('a date with no series cannot be told', async () => {
    await cannotKnow(named('T4', '3-Apr'), 'label-like-date', /"3-4" or "4-3"/);
  });

  it('one number for two transects of different days', async () => {
    await restores(named('T4', 'T1'), 'duplicate-transect');
  });

  it('one number for two that follow one another', async () => {
    await restores(named('T4', 'T3'), 'duplicate-transect');
  });

  it('one number twice in transects.csv alone', async () => {
    await restores(named('T4', 'T1', [T]), 'duplicate-transect');
  });

  it('another spelling in one table', async () => {
    await restores(named('T4', 't-04', [D]), 'unknown-transect');
  });
});

describe('cells', () => {
  it.each([
    [T, 2, 'length_m', '3O', 'not-a-number'],
    [D, 3, 'distance_m', '"14,20"', 'not-a-number'],
    [T, 4, 'length_m', '30 m', 'not-a-number'],
    [H, 3, 'depth_m', '6.56168 ft', 'not-a-number'],
    [T, 3, 'date', '07/01/2025', 'invalid-date'],
    [T, 7, 'date', '2025/07/03', 'invalid-date'],
    [D, 2, 'role', 'P', 'not-listed'],
    [D, 2, 'role', 'primry', 'not-listed'],
    [H, 3, 'substrate', 'gravle', 'unknown-substrate'],
  ])('%s row %i, %s: %s', async (file, row, column, typed, code) => {
    if (typed === '07/01/2025') {
      await cannotKnow(
        setCell(file, row, column, typed),
        code,
        /2025-01-07 or 2025-07-01|2025-07-01 or 2025-01-07/,
      );
      return;
    }
    await restores(setCell(file, row, column, typed), code);
  });

  it.each(['20+', '>20', '10-20', '~15'])('%s as a count', async (typed) => {
    await cannotKnow(
      setCell(D, 4, 'count', typed),
      'not-a-number',
      /a limit or a range, not a number/,
    );
  });

  it('lots', async () => {
    await cannotKnow(setCell(D, 4, 'count', 'lots'), 'not-a-number', /none can be made of words/);
  });

  it('0 as a count among others', async () => {
    await cannotKnow(setCell(D, 4, 'count', '0'), 'out-of-range', /a count that was not read/);
  });

  it('0 as a count that says that nothing was found', async () => {
    const none = baseSurvey();
    edit(D, (text) => text.replaceAll(/^T6,.*\n/gm, ''))(none);
    await restores(addRow(D, 'T6,primary,0,0,0,,'), 'out-of-range', undefined, none);
  });

  it('neither bearing nor end', async () => {
    const lost = edit(T, (text) => text.replace(/^(T2,(?:[^,]*,){6})[^,]*,[^,]*/m, '$1,'));
    await cannotKnow(lost, 'no-direction', /from the sheet or the GPS/);
  });
});

describe('the same cluster by both', () => {
  it('the row of the secondary is left out', async () => {
    const copies = edit(D, (text) => {
      const rows = text.split('\n').filter((line) => /^T\d,primary/.test(line));
      return `${text}${rows.map((line) => `${line.replace('primary', 'secondary')}\n`).join('')}`;
    });
    const texts = bent(copies);
    const { repairs } = await judged(texts);
    const own = repairs.filter(({ answers }) => answers[0]?.code === 'possible-double-count');
    expect(own.flatMap(({ edits }) => edits)).toHaveLength(24); // four of the primary on each of six
    const edits = own.flatMap((repair) => repair.edits);
    const files = applied(texts, { ...own[0]!, edits });
    expect(textTables(files)).toEqual(textTables(toFolder(baseSurvey()).files));
  });
});
