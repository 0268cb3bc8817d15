/** Maps and waypoints that are not of one lake: refused, with the slip that would explain it. */

import { describe, expect, it } from 'vitest';
import { formatFinding, hasErrors } from '../../shared/findings.ts';
import type { LngLat } from '../../shared/survey.ts';
import { judge } from '../../src/pipeline.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';

type Move = (p: LngLat) => LngLat;

const TRANSECTS = 'transects.csv';
const MAPS = ['outline.geojson', 'substrate.geojson', 'depth.geojson'];
/** To 7° E, where latitude and longitude can be exchanged and both still be on the globe. */
const east: Move = ([lon, lat]) => [lon + 100, lat];
const exchanged: Move = ([lon, lat]) => [lat, lon];

function moved(texts: Texts, file: string, move: Move): void {
  const text = texts[file] ?? '';
  if (file !== TRANSECTS) {
    texts[file] = text.replace(/\[\s*(-?[\d.]+),\s*(-?[\d.]+)\s*\]/g, (_, lon, lat) =>
      JSON.stringify(move([Number(lon), Number(lat)])),
    );
    return;
  }
  const [head = '', ...rows] = text.trimEnd().split('\n');
  const columns = head.split(',');
  const lines = rows.map((row) => {
    const cells = row.split(',');
    for (const end of ['start', 'end']) {
      const [lonAt, latAt] = [columns.indexOf(`${end}_lon`), columns.indexOf(`${end}_lat`)];
      const [lon, lat] = move([Number(cells[lonAt]), Number(cells[latAt])]);
      cells[lonAt] = lon.toFixed(6);
      cells[latAt] = lat.toFixed(6);
    }
    return cells.join(',');
  });
  texts[file] = `${[head, ...lines].join('\n')}\n`;
}

async function errorsOf(...moves: [file: string, move: Move][]): Promise<string[]> {
  const texts = baseSurvey();
  for (const [file, move] of moves) moved(texts, file, move);
  const { findings } = await judge(toFolder(texts));
  return findings.filter((f) => hasErrors([f])).map(formatFinding);
}

const allEast = [TRANSECTS, ...MAPS].map((file): [string, Move] => [file, east]);
const AWAY =
  /^(\S+?)(?:, start_lat)?: .* lies? [\d,]+ km from .*\(all of one lake expected; (.*)\)$/;

describe('is refused, and says why', () => {
  it.each<[string, [string, Move][], string, string]>([
    ['waypoints exchanged', [...allEast, [TRANSECTS, exchanged]], TRANSECTS, 'were latitude and'],
    [
      'a map of substrate exchanged',
      [...allEast, ['substrate.geojson', exchanged]],
      'substrate.geojson',
      'were latitude and longitude exchanged',
    ],
    [
      'contours exchanged',
      [...allEast, ['depth.geojson', exchanged]],
      'depth.geojson',
      'were latitude and longitude exchanged',
    ],
    [
      'an outline exchanged, all else as it should be',
      [...allEast, ['outline.geojson', exchanged]],
      'outline.geojson',
      'were latitude and longitude exchanged',
    ],
    [
      'waypoints without their minus',
      [[TRANSECTS, ([lon, lat]) => [-lon, lat]]],
      TRANSECTS,
      'is the minus of its longitude missing',
    ],
    [
      'waypoints of another zone',
      [[TRANSECTS, ([lon, lat]) => [lon + 12, lat]]],
      TRANSECTS,
      'They are 12° of longitude off',
    ],
    [
      'another lake',
      [[TRANSECTS, ([lon, lat]) => [lon + 3.3, lat + 1.7]]],
      TRANSECTS,
      'is a file of another lake among them',
    ],
  ])('%s', async (_, moves, table, cause) => {
    const lines = await errorsOf(...moves);
    expect(lines).toHaveLength(1);
    const [, where, why] = AWAY.exec(lines[0] ?? '') ?? [];
    expect(where).toBe(table);
    expect(why).toContain(cause);
  });

  it('a distance as it is on the globe', async () => {
    // by hand: 1.7° of latitude are 189 km, 3.3° of longitude at 46° 255 km, together 317
    expect(await errorsOf([TRANSECTS, ([lon, lat]) => [lon + 3.3, lat + 1.7]])).toEqual([
      expect.stringMatching(/lies 31[67] km from the outline of the lake/),
    ]);
  });

  it('a map whose exchanged positions are off the globe', async () => {
    expect(await errorsOf(['substrate.geojson', exchanged])).toEqual([
      expect.stringMatching(
        /^substrate.geojson feature 1: position 45, -9[\d.]+ is off the globe.*; was latitude written first\?\)$/,
      ),
    ]);
  });
});

it('a survey at 7° E is as good as one at 93° W', async () => {
  expect(await errorsOf(...allEast)).toEqual([]);
});
