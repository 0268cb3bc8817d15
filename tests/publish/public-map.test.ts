/** The public map as a file: what it holds, and what it must not hold. */

import { describe, expect, it } from 'vitest';
import type { XY } from '../../shared/survey.ts';
import { publicMap } from '../../src/present/public-map.ts';
import { publicMapHtml } from '../../src/publish/public-map.ts';
import { publicLake } from '../helpers/public-lake.ts';

const SCRIPT = { text: 'void 0', hash: 'sha256-none' };
/** Two pairs of places that lie in the same squares of 50 m, the middles 14.75 m east of them. */
const HERE: [XY, XY] = [
  [3.172, 7.318],
  [61.427, -28.846],
];
const THERE: [XY, XY] = [
  [28.913, 41.276],
  [79.938, -3.185],
];

function fileOf(from: [XY, XY], coarseM: number | null): string {
  const map = publicMap(publicLake(from), coarseM);
  if (map === null) throw new Error('got no map, expected one');
  const wishes = { title: null, contact: '<b>Office</b></script>', nextUpdate: null };
  return publicMapHtml(map, wishes, ['en', 'es', 'fr'], SCRIPT);
}

/** A number as files write it: plain, and to one decimal and more. */
const written = (x: number): string[] => [
  `${x}`,
  ...[1, 2, 3, 4, 5, 6, 7].map((d) => x.toFixed(d)),
];

describe('coarse positions', () => {
  it('leave no trace of the exact ones: surveys that differ only within the squares give the same bytes', () => {
    expect(fileOf(HERE, 50)).toBe(fileOf(THERE, 50));
    expect(fileOf(HERE, null)).not.toBe(fileOf(THERE, null));
  });

  it('no end of a transect stands in the file, in degrees, in metres or in the drawing’s units', () => {
    const result = publicLake(HERE);
    const map = publicMap(result, null);
    if (map === null) throw new Error('got no map, expected one');
    const exact = map.facts.places.flatMap((p) => [...p.at, ...(p.line ?? [])]);
    const inPlane = result.placed.flatMap((p) => [...p.start, ...p.end]);
    const inDegrees = result.placed.flatMap((p) => [...p.startLngLat, ...p.endLngLat]);
    const coarse = fileOf(HERE, 50);
    const traces = [
      // a whole unit, or a degree to 0.01°, may be anything's
      ...exact.filter((x) => !Number.isInteger(x)).map((x) => x.toFixed(1)),
      ...inPlane.flatMap(written).filter((text) => text.length > 4),
      ...inDegrees.flatMap(written).filter((text) => text.length > 7),
    ];
    expect(traces.length).toBeGreaterThan(60);
    expect(traces.filter((text) => coarse.includes(text))).toEqual([]);
    // and the same search finds them where they are
    const open = fileOf(HERE, null);
    expect(exact.every((x) => open.includes(String(x)))).toBe(true);
  });
});

describe('the file', () => {
  const file = fileOf(HERE, null);

  it('names no transect and no observer', () => {
    for (const name of ['T1', '=T2', 'Ada', 'Ben', 'Heron']) expect(file).not.toContain(name);
  });

  it('asks nothing of a network, and lets only its own script run', () => {
    expect(file).toContain("default-src 'none'");
    expect(file).toContain("script-src 'sha256-none'");
    expect(file).not.toMatch(/\b(?:src|href)=|url\((?!#)|https?:|@import/);
  });

  it('takes what it is given as text, in the page and in the data of its script', () => {
    expect(file).toContain('&lt;b&gt;Office&lt;/b&gt;');
    expect(file.match(/<\/script>/g)).toHaveLength(2);
    expect(file).not.toContain('<b>Office');
  });

  it('holds the words of the languages that are asked for alone', () => {
    const map = publicMap(publicLake(HERE), null);
    if (map === null) throw new Error('got no map, expected one');
    const wishes = { title: null, contact: null, nextUpdate: null };
    const spanish = publicMapHtml(map, wishes, ['es'], SCRIPT);
    expect(spanish).toContain('<html lang="es-US">');
    expect(spanish).toContain('Unos 180,000 mejillones');
    expect(spanish).not.toContain('id="languages"');
    expect(spanish).not.toMatch(/lake bed|moules/);
  });
});
