/**
 * Each slip of typed sheets is made in a sound survey, found, and its repair gives back the cells as they were; or the program
 * says why it cannot know. What is expected is the sound survey itself, whose cells the repairs never see.
 */

import { describe, expect, it } from 'vitest';
import type { Repair } from '../../shared/repairs.ts';
import { makeEdit } from '../../src/app/state/edits.ts';
import { judge } from '../../src/pipeline.ts';
import { textTables } from '../../src/read/index.ts';
import { baseSurvey, lakePoint, type Texts, toFolder } from '../helpers/base-survey.ts';
import {
  addRow,
  all,
  type Bend,
  dropRows,
  edit,
  setCell,
  setRow,
  swapRows,
} from '../helpers/bend.ts';

const T = 'transects.csv';
const H = 'habitat.csv';
const D = 'detections.csv';
const MAPS = ['outline.geojson', 'substrate.geojson', 'depth.geojson'];

function bent(...bends: Bend[]): Texts {
  const texts = baseSurvey();
  all(...bends)(texts);
  return texts;
}

async function judged(texts: Texts) {
  const { findings, repairs } = await judge(toFolder(texts));
  return { codes: findings.map(({ code }) => code), findings, repairs: await repairs() };
}

function applied(texts: Texts, { edits, title }: Repair) {
  const { files } = toFolder(texts);
  return edits.reduce(
    (work, { table, row, column, old, new: after }) => {
      const made = makeEdit(work, { file: table, row, column, after, reason: title, at: '' });
      expect(made.edits.at(-1)?.before).toBe(old);
      return made;
    },
    { name: 'x', files, edits: [] } as Parameters<typeof makeEdit>[0],
  ).files;
}

/** The repair of the slip gives back the sound survey, and every error and notice goes with it. */
async function restores(
  bend: Bend,
  code: string,
  pick: (repair: Repair) => boolean = () => true,
  sound = baseSurvey(),
) {
  const texts = { ...sound };
  bend(texts);
  const before = await judged(texts);
  expect(before.codes, before.findings.map((f) => JSON.stringify(f)).join('\n')).toContain(code);
  const proposed = before.repairs.filter(
    ({ edits, answers }) => edits.length > 0 && answers.some((a) => a.code === code),
  );
  const chosen = proposed.filter(pick);
  expect(chosen.map(({ title }) => title)).toHaveLength(1);
  expect(chosen[0]!.why.length).toBeGreaterThan(20);
  const files = applied(texts, chosen[0]!);
  expect(textTables(files)).toEqual(textTables(toFolder(sound).files));
  return chosen[0]!;
}

/** Nothing is proposed, and it is said why. */
async function cannotKnow(bend: Bend, code: string, why: RegExp) {
  const { codes, repairs } = await judged(bent(bend));
  expect(codes).toContain(code);
  const own = repairs.filter(({ answers }) => answers.some((a) => a.code === code));
  expect(own.flatMap(({ edits }) => edits)).toEqual([]);
  expect(own.map((repair) => repair.why).join('\n')).toMatch(why);
}

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

describe('waypoints', () => {
  it('a bearing of 360 is one of 0', async () => {
    const texts = bent(setCell(T, 2, 'bearing_deg', '360'));
    const { repairs } = await judged(texts);
    const north = repairs.find(({ title }) => title === 'Set bearing_deg to 0 (row 2)');
    expect(north?.certain).toBe(true);
    const mended = new TextDecoder().decode(applied(texts, north!).get(T));
    expect(mended).toBe(bent(setCell(T, 2, 'bearing_deg', '0'))[T]);
  });

  it('a longitude without its minus', async () => {
    await restores(
      edit(T, (text) =>
        text.replace(
          'T1,2025-07-01,belt,Ann,Ben,45.000810,-',
          'T1,2025-07-01,belt,Ann,Ben,45.000810,',
        ),
      ),
      'waypoint-far-off',
    );
  });

  it('all longitudes without their minus, in one repair', async () => {
    const repair = await restores(
      edit(T, (text) => text.replaceAll(',-92', ',92')),
      'far-from-outline',
    );
    expect(repair.edits).toHaveLength(12);
    expect(repair.certain).toBe(true);
  });

  it('latitude and longitude exchanged', async () => {
    const exchanged = edit(T, (text) =>
      text.replaceAll(/^(T2,(?:[^,]*,){4})([^,]*),([^,]*)/gm, '$1$3,$2'),
    );
    await restores(exchanged, 'out-of-range');
  });

  it('minutes typed as decimals', async () => {
    // 45.000810° is 45° 0.0486′; 92.999899° is 92° 59.99394′ (by hand: times 60, put behind the point)
    const typed = (text: string) =>
      text.replaceAll(
        /(-?\d+)\.(\d{6})/g,
        (_, whole: string, part: string) =>
          `${whole}.${((Number(`0.${part}`) * 60) / 100).toFixed(8).slice(2)}`,
      );
    const row = (text: string) =>
      text
        .split('\n')
        .map((line) => (line.startsWith('T5') ? typed(line) : line))
        .join('\n');
    await restores(edit(T, row), 'transect-off-lake');
  });
});

describe('bearings', () => {
  it('reversed', async () => {
    const repair = await restores(
      setCell(T, 2, 'bearing_deg', '270'),
      'bearing-disagrees-with-waypoints',
      ({ edits }) => edits[0]?.column === 'bearing_deg',
    );
    expect(repair.why).toMatch(/90\.0° true/);
  });

  it('mirrored: 90 − x', async () => {
    await restores(setCell(T, 5, 'bearing_deg', '0'), 'bearing-disagrees-with-waypoints');
  });

  it('reversed without an end waypoint: the map tells by its depths', async () => {
    const open = baseSurvey();
    edit(T, (text) => text.replace(/^(T1,(?:[^,]*,){6})[^,]*,[^,]*/m, '$1,'))(open);
    await restores(setCell(T, 2, 'bearing_deg', '270'), 'transect-off-lake', undefined, open);
  });

  it('magnetic for true, of a whole survey', async () => {
    // at 47.5° N, 53° W in 2025 the compass points some 17° west of north (World Magnetic Model 2025, NCEI's calculator)
    const north = (texts: Texts, ref: string): Texts => ({
      ...Object.fromEntries(Object.entries(texts).filter(([name]) => !MAPS.includes(name))),
      [T]: texts[T]!.replaceAll('45.00', '47.50')
        .replaceAll(/-9[23]\.(\d+)/g, (all, digits: string) =>
          all.startsWith('-92') ? `-52.${digits}` : `-53.${digits}`,
        )
        .replaceAll(/,(90)?,(true|magnetic|),30,/g, `,90,${ref},30,`),
    });
    const sound = north(baseSurvey(), 'true');
    const wrong = north(baseSurvey(), 'magnetic');
    for (const texts of [sound, wrong])
      texts['analysis.json'] =
        '{ "lake": "x", "position": { "gps_sd_m": 1, "compass_sd_deg": 2 } }';
    expect((await judged(sound)).codes).not.toContain('bearings-off-by-declination');
    const { repairs } = await judged(wrong);
    const repair = repairs.find(
      ({ answers }) => answers[0]?.code === 'bearings-off-by-declination',
    )!;
    expect(textTables(applied(wrong, repair))).toEqual(textTables(toFolder(sound).files));
  });
});

describe('start and end exchanged', () => {
  const exchange = (label: string) =>
    edit(T, (text) =>
      text.replace(
        new RegExp(`^(${label},(?:[^,]*,){4})([^,]*,[^,]*),([^,]*,[^,]*)`, 'm'),
        '$1$3,$2',
      ),
    );

  it('the waypoints, with a bearing that tells', async () => {
    await restores(exchange('T1'), 'bearing-disagrees-with-waypoints');
  });

  it('the waypoints, told by the map alone', async () => {
    await restores(exchange('T2'), 'depths-run-against-map');
  });

  const backward = all(
    setRow(H, 2, 'T1,0,rock,2,3.8'),
    setRow(H, 3, 'T1,8,gravel,1,3'),
    setRow(H, 4, 'T1,18,sand,0,2'),
    setRow(H, 5, 'T1,30,,,0.8'),
    // 30 less 3.5, 14.2, 23.1, 26.4 and 17.7
    ...[26.5, 15.8, 6.9, 3.6, 12.3].map((m, i) => setCell(D, 2 + i, 'distance_m', m.toFixed(2))),
  );

  it('the distances, counted from the deep end', async () => {
    await restores(backward, 'starts-deep');
  });

  it('without a map nobody can tell', async () => {
    const mapless: Bend = (texts) => {
      for (const name of MAPS) delete texts[name];
    };
    await cannotKnow(all(backward, mapless), 'starts-deep', /depth map, or the sheet/);
  });
});

describe('habitat', () => {
  it('breaks out of order', async () => {
    await restores(swapRows(H, 3, 4), 'breaks-not-increasing');
  });

  it('the whole transect typed from the end', async () => {
    await restores(all(swapRows(H, 2, 5), swapRows(H, 3, 4)), 'breaks-not-increasing');
  });

  it('a decimal point too many puts a break out of order, and its depth tells', async () => {
    await restores(setCell(H, 8, 'distance_m', '2.2'), 'breaks-not-increasing');
  });

  it('the first break is not at 0', async () => {
    await restores(setCell(H, 10, 'distance_m', '0.5'), 'first-habitat-not-at-0');
  });

  it('all distances counted from another mark', async () => {
    const from2 = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) =>
            before + (file === D ? (Number(m) + 2).toFixed(2) : String(Number(m) + 2)),
        ),
      );
    await restores(all(from2(H), from2(D)), 'first-habitat-not-at-0');
  });

  it('a first row that is missing cannot be known', async () => {
    await cannotKnow(dropRows(H, 6), 'first-habitat-not-at-0', /from 0 to 12 m stands in no table/);
  });

  it('a transect with no row anywhere', async () => {
    const bare = all(
      edit(H, (text) => text.replaceAll(/^T3,.*\n/gm, '')),
      edit(D, (text) => text.replaceAll(/^T3,.*\n/gm, '')),
    );
    await cannotKnow(bare, 'no-habitat', /habitat sheet/);
  });
});

describe('units', () => {
  /** as a gauge in feet would have given it, exactly (0.3048 m) */
  const feet = (m: string) => String(Number((Number(m) / 0.3048).toFixed(5)));
  const depths = (labels: RegExp) =>
    edit(H, (text) =>
      text.replaceAll(/^(T\d),(.*),([\d.]+)$/gm, (line, label: string, mid: string, m: string) =>
        labels.test(label) ? `${label},${mid},${feet(m)}` : line,
      ),
    );

  it('depths in feet, all of them', async () => {
    await restores(depths(/./), 'depth-in-feet');
  });

  it('depths in feet, on one transect', async () => {
    const repair = await restores(depths(/T3/), 'depth-in-feet-on-transect');
    expect(repair.why).toMatch(/3\.\d\d times those of the map/);
  });

  it('the length in feet', async () => {
    await restores(setCell(T, 3, 'length_m', feet('30')), 'rope-over-30-m');
  });

  it('length and distances in feet', async () => {
    const along = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) => before + feet(m),
        ),
      );
    await restores(
      all(setCell(T, 3, 'length_m', feet('30')), along(H), along(D)),
      'waypoints-disagree-with-rope',
    );
  });

  it('distances in feet, the length in metres', async () => {
    const along = (file: string) =>
      edit(file, (text) =>
        text.replaceAll(
          /^(T2,(?:primary,|secondary,)?)([\d.]+)/gm,
          (_, before: string, m: string) => before + feet(m),
        ),
      );
    await restores(all(along(H), along(D)), 'past-rope-end');
  });

  it('perpendicular distances in centimetres', async () => {
    const cm = edit(D, (text) =>
      text.replaceAll(
        /^(T5,\w+,[\d.]+),([\d.]+)/gm,
        (_, before: string, m: string) => `${before},${Math.round(Number(m) * 100)}`,
      ),
    );
    await restores(cm, 'offset-past-width');
  });

  it('one perpendicular distance in centimetres', async () => {
    await restores(setCell(D, 20, 'offset_m', '72'), 'offset-past-width');
  });

  it('one that is past the width in any unit', async () => {
    await cannotKnow(setCell(D, 20, 'offset_m', '1.4'), 'offset-past-width', /no other unit/);
  });
});

describe("past the rope's end", () => {
  it('a decimal point lost', async () => {
    await restores(setCell(D, 3, 'distance_m', '1420'), 'past-rope-end');
  });

  it('a length with a digit lost', async () => {
    await restores(setCell(T, 2, 'length_m', '3'), 'past-rope-end');
  });

  it('a place that no slip explains', async () => {
    await cannotKnow(setCell(D, 5, 'distance_m', '35'), 'past-rope-end', /the sheet must tell/);
  });

  it('one depth that no rope can reach', async () => {
    await restores(setCell(H, 5, 'depth_m', '38'), 'depth-change-above-rope');
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

describe('points of the lake', () => {
  it('are where the base survey says', () => {
    // the start of T1 is 8 m east and 90 m north of the corner (by hand: 8/78,847° and 90/111,132°)
    expect(lakePoint(8, 90)).toEqual([-92.9998985, 45.0008098]);
  });
});
