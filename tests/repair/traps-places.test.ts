/**
 * Where transects lie: waypoints, bearings and ends. Each slip of typed sheets is made in a sound survey, found, and
 * its repair gives back the cells as they were; or the program says why it cannot know. What is expected is the sound
 * survey itself, whose cells the repairs never see.
 */

import { describe, expect, it } from 'vitest';
import { textTables } from '../../src/read/index.ts';
import { baseSurvey, lakePoint, type Texts, toFolder } from '../helpers/base-survey.ts';
import { all, type Bend, edit, setCell, setRow } from '../helpers/bend.ts';
import { applied, bent, cannotKnow, D, H, judged, MAPS, restores, T } from './slips.ts';

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

describe('points of the lake', () => {
  it('are where the base survey says', () => {
    // the start of T1 is 8 m east and 90 m north of the corner (by hand: 8/78,847° and 90/111,132°)
    expect(lakePoint(8, 90)).toEqual([-92.9998985, 45.0008098]);
  });
});
