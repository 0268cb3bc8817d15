/**
 * Surveys of one lake against each other, from their files on. Expected: identities (a survey against itself, the order of the
 * folders, parts that add up), and what follows by hand where one season has twice the detections of the other.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import type { ChangeFile, PairChange } from '../../shared/change.ts';
import { formatFinding } from '../../shared/findings.ts';
import type { Answer } from '../../shared/importing.ts';
import { type CompareAsked, compareSurveys } from '../../src/pipeline/compare.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { readChange } from '../../src/present/change.ts';
import { changeFiles } from '../../src/publish/change.ts';
import { baseSurvey, beltSurvey, lakePoint, type Texts, toFolder } from '../helpers/base-survey.ts';

/** Takes what is proposed, but for the answers given. */
const settled = (answers: Record<string, Answer> = {}): CompareAsked['answered'] => ({
  answers: new Map(Object.entries(answers)),
  accepted: new Set(
    ['observers', 'classes'].flatMap((of) => [`${of}.a.b`, `${of}.pond-2025.pond-2026`]),
  ),
  acceptCertain: false,
});
const asked = (changed: Partial<CompareAsked> = {}): CompareAsked => ({
  answered: settled(),
  treated: null,
  ...changed,
});
const QUICK = {
  'analysis.json': JSON.stringify({
    lake: 'Minnow Pond',
    density: { family: 'poisson', transect_effect: false, depth: 'none', plant_cover: 'none' },
    detection: { shape: 'half-normal' },
  }),
};
const earlier = (): Texts => ({ ...baseSurvey(), ...QUICK });
/** every detection twice, 11 cm apart, a year later */
function later(texts = earlier()): Texts {
  const [head, ...rows] = texts['detections.csv'].trim().split('\n');
  const at = head.split(',').indexOf('distance_m');
  const again = rows.map((row) => {
    const cells = row.split(',');
    const moved = Number(cells[at]) < 29 ? 0.11 : -0.11;
    cells[at] = (Number(cells[at]) + moved).toFixed(2);
    return cells.join(',');
  });
  texts['detections.csv'] = [head, ...rows, ...again].join('\n');
  texts['transects.csv'] = texts['transects.csv'].replaceAll('2025-', '2026-');
  return texts;
}
async function compared(
  seasons: [Texts, string][],
  changed: Partial<CompareAsked> = {},
): Promise<ChangeFile> {
  const folders = seasons.map(([texts, name]) => toFolder(texts, name));
  const done = await compareSurveys(folders, asked(changed));
  if (!done.ok || done.file === null)
    throw new Error(done.findings.map((f) => `${f.table}: ${f.message}`).join('\n'));
  return done.file;
}

describe('two surveys of one lake', () => {
  let file: ChangeFile;
  let pair: PairChange;
  beforeAll(async () => {
    file = await compared([
      [later(), 'pond-2026'],
      [earlier(), 'pond-2025'],
    ]);
    [pair] = file.pairs;
  });

  it('stand in the order of their dives, whatever order they came in', () => {
    expect(file.surveys.map((s) => [s.survey, s.from])).toEqual([
      ['pond-2025', '2025-07-01'],
      ['pond-2026', '2026-07-01'],
    ]);
  });

  it('with the same places have all of their surveyed habitat in common', async () => {
    expect(pair.common).toMatchObject({ same_maps: true, with_earlier_maps: null });
    expect(pair.common.share_before).toBeCloseTo(1, 12);
    const alone = await estimateSurvey(toFolder(earlier()));
    if (!alone.ok) throw new Error('no estimate');
    const { abundance } = alone.result.estimate;
    expect(pair.common.area_m2).toBeCloseTo(abundance?.area_m2 ?? 0, 6);
    expect(pair.total.before.estimate / (abundance?.mussels?.estimate ?? 0)).toBeCloseTo(1, 9);
    // detection is known better with both surveys
    expect(pair.total.before.se).toBeLessThan(abundance?.mussels?.se ?? 0);
  });

  it('have twice the mussels where each detection stands twice, and say so', () => {
    expect(pair.total.change?.ratio).toBeCloseTo(2, 6);
    const { before, after, change } = pair.total;
    // observers of both years are the same persons, and their detection is the same to the last digit
    expect(pair.detection).toMatchObject({ used: true, observers: ['Ann', 'Ben'] });
    expect(change?.se_log).toBeLessThan(Math.hypot(before.cv ?? 0, after.cv ?? 0));
  });

  it('have twice the mussels in every cell of the common ground, and a map of it', async () => {
    const folders = [toFolder(earlier(), 'a'), toFolder(later(), 'b')];
    const done = await compareSurveys(folders, asked({ withMaps: true }));
    if (!done.ok || done.file === null) throw new Error('no comparison');
    const { ratio, errors, surface } = done.maps[0]!.cells;
    const inside = [...surface.inside.keys()].filter((cell) => surface.inside[cell] === 1);
    expect(inside.length).toBeGreaterThan(100);
    // stored as 32 bit numbers
    for (const cell of inside) expect(ratio[cell]).toBeCloseTo(2, 5);
    for (const cell of inside) expect(errors[cell]).toBeGreaterThan(0);
    expect(
      [...surface.inside.keys()].every(
        (cell) => surface.inside[cell] === 1 || Number.isNaN(ratio[cell]),
      ),
    ).toBe(true);
    const page = changeFiles(done.file, done.maps).get('change.html') ?? '';
    expect(page).toContain('id="map-change-1-title"');
    // all of it lies on the edge of two classes: as many to twice as many, or more
    expect(page).toMatch(
      /twice as many(, not told from no change)?: 100 %|twice as many: \d+ %; more than twice/,
    );
    expect(changeFiles(done.file).get('change.html')).not.toContain('id="map-change-1-hatch"');
  });

  it('that are the same but for the year have changed by nothing, with all models open', async () => {
    const same = beltSurvey();
    const again = {
      ...same,
      'transects.csv': same['transects.csv'].replaceAll('2025-', '2026-'),
    };
    const { pairs } = await compared([
      [same, 'a'],
      [again, 'b'],
    ]);
    expect(pairs[0].total.change?.ratio).toBeCloseTo(1, 7);
    expect(pairs[0].total.change?.decline).toBeCloseTo(0.5, 7);
  });

  it('have parts that add up to the whole', () => {
    for (const parts of [pair.strata, pair.by_substrate, pair.by_depth])
      for (const season of ['before', 'after'] as const) {
        const sum = parts.reduce((total, row) => total + row[season].estimate, 0);
        expect(sum / pair.total[season].estimate).toBeCloseTo(1, 9);
      }
  });
});

describe('what names mean to each other', () => {
  it('is asked: observers are never taken for certain, classes are where both lists are the same', async () => {
    const done = await compareSurveys(
      [toFolder(earlier(), 'a'), toFolder(later(), 'b')],
      asked({ answered: { answers: new Map(), accepted: new Set(), acceptCertain: true } }),
    );
    if (!done.ok) throw new Error('errors');
    expect(done.file).toBeNull();
    expect(done.questions.map(({ answer }) => answer === null)).toEqual([true, false]);
    const questions = done.questions.map(({ question }) => question);
    expect(questions.map((q) => [q.id, q.certain])).toEqual([
      ['observers.a.b', false],
      ['classes.a.b', true],
    ]);
    expect(questions[0].proposal).toEqual({ Ann: 'Ann', Ben: 'Ben' });
  });

  it('other persons keep a detection of their own', async () => {
    const answered = settled({ 'observers.a.b': { Ann: 'none', Ben: 'none' } });
    const { pairs } = await compared(
      [
        [earlier(), 'a'],
        [later(), 'b'],
      ],
      { answered },
    );
    expect(pairs[0].detection).toMatchObject({ used: false, why: 'no-observer' });
  });

  it('classes of another name are the same where it is said', async () => {
    const renamed = Object.fromEntries(
      Object.entries(later()).map(([name, text]) => [name, text.replaceAll('rock', 'boulder')]),
    );
    renamed['analysis.json'] = renamed['analysis.json'].replace(
      '{',
      '{"substrates": ["mud", "silt", "sand", "gravel", "pebble", "boulder", "other"],',
    );
    const answered = settled({
      'classes.a.b': { sand: 'sand', gravel: 'gravel', boulder: 'rock' },
    });
    const { pairs } = await compared(
      [
        [earlier(), 'a'],
        [renamed, 'b'],
      ],
      { answered },
    );
    expect(pairs[0].total.change?.ratio).toBeCloseTo(2, 6);
    const without = settled({ 'classes.a.b': { sand: 'sand', gravel: 'gravel', boulder: 'none' } });
    const less = await compared(
      [
        [earlier(), 'a'],
        [renamed, 'b'],
      ],
      { answered: without },
    );
    expect(less.pairs[0].common.substrates).toEqual(['sand', 'gravel']);
    expect(less.pairs[0].common.area_m2).toBeLessThan(pairs[0].common.area_m2);
  });
});

/** The pond between two northings, m. */
const box = (south: number, north: number) => ({
  name: 'treated.geojson',
  bytes: new TextEncoder().encode(
    JSON.stringify({
      type: 'Polygon',
      coordinates: [
        [
          lakePoint(0, south),
          lakePoint(315, south),
          lakePoint(315, north),
          lakePoint(0, north),
          lakePoint(0, south),
        ],
      ],
    }),
  ),
});

describe('places that were treated', () => {
  it('stand against the others, or say why they cannot', async () => {
    const half = await compared(
      [
        [earlier(), 'a'],
        [later(), 'b'],
      ],
      { treated: box(0, 150) },
    );
    const treated = half.pairs[0].treated;
    expect(treated?.why).toBeNull();
    // both halves were doubled
    expect(treated?.effect?.ratio).toBeCloseTo(1, 5);
    expect(treated?.treated?.change?.ratio).toBeCloseTo(2, 5);
    expect(treated?.together?.ratio).toBeCloseTo(2, 5);
    expect((treated?.treated_m2 ?? 0) + (treated?.untreated_m2 ?? 0)).toBeCloseTo(
      half.pairs[0].common.area_m2,
      6,
    );
    const strip = await compared(
      [
        [earlier(), 'a'],
        [later(), 'b'],
      ],
      { treated: box(101, 103) },
    );
    expect(strip.pairs[0].treated).toMatchObject({
      effect: null,
      why: 'no-transect-inside',
      why_survey: 'a',
    });
  });
});

/** Without the detections on some transects, or on some substrates. */
function lessOf(texts: Texts, isLost: (transect: string, distanceM: number) => boolean): Texts {
  const [head, ...rows] = texts['detections.csv'].trim().split('\n');
  const [at, along] = ['transect', 'distance_m'].map((name) => head.split(',').indexOf(name));
  const kept = rows.filter((row) => {
    const cells = row.split(',');
    return !isLost(cells[at], Number(cells[along]));
  });
  return { ...texts, 'detections.csv': [head, ...kept].join('\n') };
}

describe('a part where nothing was detected', () => {
  it('of treated places is at most so much of what the untreated would let expect', async () => {
    const belts = (): Texts => ({ ...beltSurvey(), ...QUICK });
    const inside = await insideOf(later(belts()), box(0, 105));
    expect(inside).toEqual(new Set(['T1']));
    const file = await compared(
      [
        [belts(), 'a'],
        [lessOf(later(belts()), (transect) => inside.has(transect)), 'b'],
      ],
      { treated: box(0, 105) },
    );
    const { treated } = file.pairs[0];
    expect(treated).toMatchObject({ why: null, effect: null });
    const n = detectedOn(belts(), inside);
    // outside there are twice as many; who detects how well is known from less there
    expect((treated?.limit?.effect.expected ?? 0) / (2 * n)).toBeGreaterThan(0.8);
    expect((treated?.limit?.effect.expected ?? 0) / (2 * n)).toBeLessThan(1.25);
    expect((treated?.limit?.treated.expected ?? 0) / n).toBeGreaterThan(0.8);
    // no less than a search that had brought 2n for sure
    const least = -Math.log(0.05) / (2.5 * n);
    expect(treated?.limit?.effect.ratio).toBeGreaterThan(least);
    expect(treated?.limit?.effect.ratio).toBeLessThan(5 * least);
    const [told] = readChange(file).pairs[0].treated ?? [];
    expect(told).toMatch(
      /^Where it was treated nothing was detected afterwards, which does not show that there are none: at most 0\.\d+ times as many/,
    );
  });

  it('of a substrate has a limit in place of its ratio', async () => {
    const rock = await rocky();
    const lost = lessOf(later(), (transect, at) => rock.has(`${transect} ${at.toFixed(2)}`));
    const { pairs } = await compared([
      [earlier(), 'a'],
      [lost, 'b'],
    ]);
    const row = pairs[0].by_substrate.find((r) => r.substrate === 'rock');
    expect(row).toMatchObject({ change: null, limit: { nothing_in: 'after' } });
    expect(row?.limit?.ratio).toBeGreaterThan(0);
    expect(pairs[0].total.change).not.toBeNull();
    expect(
      pairs[0].strata.filter((r) => r.substrate === 'rock').some((r) => r.limit !== null),
    ).toBe(true);
  });
});

async function estimated(texts: Texts) {
  const done = await estimateSurvey(toFolder(texts));
  if (!done.ok) throw new Error('no estimate');
  return done.result;
}

/** Transects whose middle lies in the treated half: south of 150 m. */
async function insideOf(texts: Texts, { bytes }: { bytes: Uint8Array }): Promise<Set<string>> {
  const { coordinates } = JSON.parse(new TextDecoder().decode(bytes));
  const north = Math.max(...coordinates[0].map(([, lat]: [number, number]) => lat));
  const { segments } = await estimated(texts);
  return new Set(
    segments.flatMap((s) => ((s.startLngLat[1] + s.endLngLat[1]) / 2 < north ? [s.transect] : [])),
  );
}

function detectedOn(texts: Texts, transects: Set<string>): number {
  const [head, ...rows] = texts['detections.csv'].trim().split('\n');
  const at = head.split(',').indexOf('transect');
  return rows.filter((row) => transects.has(row.split(',')[at])).length;
}

/** Transect and distance of each detection on rock. */
async function rocky(): Promise<Set<string>> {
  const { segments, survey } = await estimated(later());
  return new Set(
    segments.flatMap((s) =>
      s.substrate.includes('rock')
        ? s.detections.map((d) => `${s.transect} ${survey.detections[d].distanceM.toFixed(2)}`)
        : [],
    ),
  );
}

describe('what is worked out of a survey', () => {
  it('stays for the next comparison, which asks and treats otherwise', async () => {
    const folders = [toFolder(earlier(), 'a'), toFolder(later(), 'b')];
    const kept = { judged: new Map(), estimated: new Map() };
    const steps: string[] = [];
    const progress = (step: string) => void steps.push(step);
    await compareSurveys(folders, asked(), { kept, progress });
    expect(steps).toContain('fit');
    steps.length = 0;
    const others = settled({ 'observers.a.b': { Ann: 'none', Ben: 'none' } });
    const apart = await compareSurveys(folders, asked({ answered: others }), { kept, progress });
    expect(new Set(steps)).toEqual(new Set(['change']));
    if (!apart.ok) throw new Error('errors');
    expect(apart.file?.pairs[0].detection.used).toBe(false);
  });

  it('is given up between two steps', async () => {
    const asks: (string | null)[] = [];
    const given = compareSurveys([toFolder(earlier(), 'a'), toFolder(later(), 'b')], asked(), {
      pause: async (survey) => {
        asks.push(survey);
        if (asks.length === 3) throw new Error('enough');
      },
    });
    await expect(given).rejects.toThrow('enough');
    expect(asks).toEqual(['a', 'b', 'a']);
  });
});

describe('treatment areas of both surveys', () => {
  const area = (name: string, south: number) => ({
    type: 'Feature',
    properties: { name },
    geometry: JSON.parse(new TextDecoder().decode(box(south, south + 60).bytes)),
  });
  const withAreas = (texts: Texts, ...features: object[]): Texts => ({
    ...texts,
    'treatments.geojson': JSON.stringify({ type: 'FeatureCollection', features }),
  });

  it('are the same by their outlines, never by their names', async () => {
    const file = await compared([
      [withAreas(earlier(), area('dock', 80), area('ramp', 140), area('bay', 200)), 'a'],
      [withAreas(later(), area('pier', 80), area('ramp', 141)), 'b'],
    ]);
    expect(file.pairs[0].areas.map(({ name }) => name)).toEqual([
      'pier',
      'ramp',
      'ramp (a)',
      'bay',
    ]);
  });
});

describe('what cannot be compared', () => {
  it('is told: another lake, before anything is asked', async () => {
    const north = later();
    for (const name of ['transects.csv', 'outline.geojson', 'substrate.geojson', 'depth.geojson'])
      north[name] = north[name].replaceAll(/(?<=[,\s])45(?=[.\s])/g, '46');
    const folders = [toFolder(earlier(), 'a'), toFolder(north, 'b')];
    const done = await compareSurveys(folders, asked());
    // a degree of latitude
    expect(done.findings.filter((f) => f.severity === 'error').map(formatFinding)).toEqual([
      "b/outline.geojson: the lake lies 111 km from that of a, and no transect of either is in the other's (surveys of one lake expected)",
    ]);
  });

  it('is told: one survey, errors of each with its folder, no detection in either', async () => {
    expect(await compareSurveys([toFolder(earlier(), 'a')], asked())).toMatchObject({ ok: false });
    const broken = { ...later(), 'habitat.csv': later()['habitat.csv'].replace('sand', 'sandd') };
    const done = await compareSurveys([toFolder(earlier(), 'a'), toFolder(broken, 'b')], asked());
    expect(done.ok).toBe(false);
    expect(done.findings.some((f) => f.table === 'b/habitat.csv' && f.severity === 'error')).toBe(
      true,
    );
    const none = await compareSurveys(
      [toFolder(emptied(earlier()), 'a'), toFolder(emptied(later()), 'b')],
      asked(),
    );
    expect(none).toMatchObject({ ok: true, file: { pairs: [] } });
    expect(none.findings.at(-1)).toMatchObject({ table: 'b', code: 'nothing-to-compare' });
  });
});

function emptied(texts: Texts): Texts {
  return { ...texts, 'detections.csv': `${texts['detections.csv'].split('\n')[0]}\n` };
}

describe('a survey that detected nothing', () => {
  const detected = (texts: Texts): number => texts['detections.csv'].trim().split('\n').length - 1;

  it('after one that did is at most so many times as many: the exact limit of counts on the same transects', async () => {
    const file = await compared([
      [earlier(), 'a'],
      [emptied(later()), 'b'],
    ]);
    const [pair] = file.pairs;
    // Przyborowski & Wilenski 1940: n detections against none on the same transects by the same observers
    const n = detected(earlier());
    expect(pair.total.limit?.ratio).toBeCloseTo(0.05 ** (-1 / n) - 1, 5);
    expect(pair.total.limit?.expected).toBeCloseTo(n, 4);
    expect(pair.total).toMatchObject({ change: null, limit: { nothing_in: 'after', seen: true } });
    expect(pair.nothing).toMatchObject({ survey: 'b', other: 'a', strangers: [] });
    // each part by its own segments: fewer of them tell less, and the expected detections add up
    for (const parts of [pair.strata, pair.by_substrate, pair.by_depth]) {
      const expected = parts.reduce((sum, row) => sum + (row.limit?.expected ?? 0), 0);
      expect(expected).toBeCloseTo(n, 4);
      for (const { limit } of parts)
        if (limit !== null) expect(limit.ratio).toBeGreaterThan(pair.total.limit?.ratio ?? 1);
    }
    const [read] = readChange(file).pairs;
    expect(read.headline).toBe(
      'Nothing was detected in b: at most 0.11 times as many mussels in b as in a (95 % upper limit).',
    );
    const all = [read.opening, ...read.sure, ...read.basis].join(' ');
    expect(all).toContain('which does not show that there were none: up to ');
    expect(all).toContain(`would have brought about ${n} detections`);
    expect(all).not.toMatch(/absent|free|gone|eradicat|NaN|null|undefined/);
    const files = changeFiles(file);
    expect(files.get('change.html')).toContain('up to 0.11');
    const [head, total] = (files.get('change.csv') ?? '').split(/\r?\n/).map((l) => l.split(','));
    expect(Number(total[head.indexOf('ratio_upper')])).toBeCloseTo(0.05 ** (-1 / n) - 1, 5);
    expect(total[head.indexOf('ratio')]).toBe('');
  });

  it('before one that did is at least so many, and strangers are taken to detect least', async () => {
    const answered = settled({ 'observers.a.b': { Ann: 'none', Ben: 'none' } });
    const file = await compared(
      [
        [emptied(earlier()), 'a'],
        [later(), 'b'],
      ],
      { answered },
    );
    const [pair] = file.pairs;
    const n = detected(later());
    expect(pair.nothing?.strangers).toEqual(['Ann', 'Ben']);
    expect(pair.total.limit?.nothing_in).toBe('before');
    // no more than were it the same observers
    expect(pair.total.limit?.expected).toBeLessThanOrEqual(n + 1e-6);
    expect(pair.total.limit?.ratio).toBeLessThanOrEqual(1 / (0.05 ** (-1 / n) - 1) + 1e-4);
    expect(readChange(file).pairs[0].headline).toMatch(/^Nothing was detected in a: at least \d/);
  });
});
