/** What people do without meaning harm: lakes at odd places, odd names, files from a spreadsheet. Each ends in words. */

import { describe, expect, it } from 'vitest';
import { estimateSurvey, judge } from '../../src/pipeline.ts';
import { publish } from '../../src/publish/index.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';

const TABLES = ['transects.csv', 'habitat.csv', 'detections.csv'];
const MAPS = ['outline.geojson', 'substrate.geojson', 'depth.geojson'];
/** Middle of the base survey's lake. */
const MIDDLE = { lon: -92.998, lat: 45.0015 };

type Move = (lon: number, lat: number) => [number, number];

/** The whole survey somewhere else: metres east and north stay what they are. */
function movedTo(lon: number, lat: number): Texts {
  const stretch = Math.cos((MIDDLE.lat * Math.PI) / 180) / Math.cos((lat * Math.PI) / 180);
  const move: Move = (x, y) => {
    const to = lon + (x - MIDDLE.lon) * stretch;
    const round = (degrees: number): number => Number(degrees.toFixed(9));
    return [round(to > 180 ? to - 360 : to), round(lat + y - MIDDLE.lat)];
  };
  const texts = baseSurvey();
  for (const name of MAPS) {
    const map = JSON.parse(texts[name] ?? '');
    for (const { geometry } of map.features)
      geometry.coordinates = movedPositions(geometry.coordinates, move);
    texts[name] = JSON.stringify(map);
  }
  const [head = '', ...rows] = (texts['transects.csv'] ?? '').split('\n');
  const columns = head.split(',');
  const moved = rows.map((row) => {
    const cells = row.split(',');
    for (const end of ['start', 'end']) {
      const [y, x] = [columns.indexOf(`${end}_lat`), columns.indexOf(`${end}_lon`)];
      if ((cells[x] ?? '') === '') continue;
      const [toX, toY] = move(Number(cells[x]), Number(cells[y]));
      [cells[x], cells[y]] = [String(toX), String(toY)];
    }
    return cells.join(',');
  });
  texts['transects.csv'] = [head, ...moved].join('\n');
  return texts;
}

function movedPositions(positions: unknown[], move: Move): unknown[] {
  if (typeof positions[0] === 'number') return move(positions[0], Number(positions[1]));
  return positions.map((inner) => (Array.isArray(inner) ? movedPositions(inner, move) : inner));
}

async function totalOf(texts: Texts): Promise<number> {
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  return done.result.estimate.abundance?.clusters.estimate ?? Number.NaN;
}

const elsewhere = totalOf(baseSurvey());

describe('a lake', () => {
  it.each([
    ['that crosses the 180th meridian', 180, 45.0015],
    ['at 80° north', -40, 80],
  ])('%s has the clusters that it has elsewhere', async (_, lon, lat) => {
    // a degree of latitude is 1 % longer at a pole than on the equator
    expect((await totalOf(movedTo(lon, lat))) / (await elsewhere)).toBeCloseTo(1, 1);
  });
});

describe('transects', () => {
  it('with names that a page or a spreadsheet would run, or that turn what follows, are told as they are', async () => {
    const cells = ['"<img src=x onerror=alert(1)>"', '"=cmd|""/C calc""!A0"', '\u05d0\u202e\u05d1'];
    const texts = baseSurvey();
    for (const name of TABLES)
      texts[name] = (texts[name] ?? '').replace(
        /^T([123]),/gm,
        (_, k) => `${cells[Number(k) - 1]},`,
      );
    const done = await estimateSurvey(toFolder(texts));
    if (!done.ok) throw new Error('got no estimate, expected one');
    for (const [name, content] of publish(done.result)) {
      if (typeof content !== 'string') continue;
      if (name.endsWith('.html')) expect(content).not.toMatch(/<img src=x|\u202e/);
      if (name.endsWith('.csv')) expect(content).not.toMatch(/(^|[,"\n])=cmd/);
    }
  });
});

describe('a table', () => {
  it.each<[string, (text: string) => string]>([
    [
      'with line ends of both kinds',
      (text) => text.replace(/\n/g, (_, at) => (at % 2 ? '\r\n' : '\n')),
    ],
    ['with everything in quotes', (text) => text.replace(/[^,\n]+/g, '"$&"')],
    ['with a byte order mark', (text) => `\ufeff${text}`],
    [
      'with fifty empty rows below',
      (text) => `${text}${`${','.repeat(commas(text))}\n`.repeat(50)}`,
    ],
  ])('%s says the same', async (_, change) => {
    const texts = baseSurvey();
    for (const name of TABLES) texts[name] = change(texts[name] ?? '');
    const { read, findings } = await judge(toFolder(texts));
    expect(findings).toEqual([]);
    expect(read.survey).toEqual((await judge(toFolder(baseSurvey()))).read.survey);
  });
});

/** In the header of a table. */
function commas(text: string): number {
  return (text.split('\n')[0] ?? '').split(',').length - 1;
}
