/**
 * What is read of a result once stands word for word and number for number in report, terminal and page, over the demo
 * lake and the four reference lakes. Nothing is expected of the numbers themselves: whether they are right is held by
 * tests/published, tests/models and tests/unchanged. A new kind of record is one line of RECORDS.
 */

import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import type { Station } from '../../src/app/contract.ts';
import { answer } from '../../src/present/answer.ts';
import { areaAboveThreshold } from '../../src/present/area-above.ts';
import { readChecks } from '../../src/present/checks.ts';
import { readSizes, sizeSentence } from '../../src/present/cluster-sizes.ts';
import { densityTable } from '../../src/present/density-curve.ts';
import { readDetection } from '../../src/present/detection.ts';
import { readDistances } from '../../src/present/detection-function.ts';
import { exclusions } from '../../src/present/exclusions.ts';
import { readFrontPage, reportWords } from '../../src/present/front-page.ts';
import { readInfluence } from '../../src/present/influence.ts';
import { readModels } from '../../src/present/models.ts';
import { readNotices } from '../../src/present/notices.ts';
import {
  observedByDepth,
  observedByObserver,
  observedBySubstrate,
} from '../../src/present/observed-expected.ts';
import type { Reading } from '../../src/present/quantity.ts';
import { searched, searchedLines, searchedList } from '../../src/present/searched.ts';
import { strata } from '../../src/present/strata.ts';
import { designSentence } from '../../src/present/sureness.ts';
import { treatmentAreas } from '../../src/present/treatments.ts';
import { LAKES, lakePath } from '../helpers/reference-lake.ts';
import { type Shown, shown, stands } from '../helpers/shown.ts';

/** Words, or the cells of a row in their order. */
type Words = string | readonly string[];
type Where = 'report' | 'short' | 'terminal' | Station;
type Reads = (result: SurveyResult) => (Words | null)[];

const facts = (r: SurveyResult) => searched(r.survey, r.segments);
const bySubstrate = (r: SurveyResult) => strata(r).substrates;
const observedTables = (r: SurveyResult) => [
  observedByObserver(r),
  observedBySubstrate(r),
  observedByDepth(r),
];
const cellsOf = (reading: Reading | null) => [reading?.estimate ?? '', reading?.interval ?? ''];
const modelLines = (r: SurveyResult) => readModels(r)?.lines ?? [];
/** Where there is one model alone, page and terminal show no table. */
const compared = (r: SurveyResult) => (modelLines(r).length > 1 ? modelLines(r) : []);
/** Report and page show these, and count the others. */
const SHOWN = { report: 8, page: 12 };
const detectionRows = (r: SurveyResult) =>
  (readDetection(r)?.groups ?? []).flatMap((g) => [...g.observers, ...g.pairs]);

/** What is read, and where it stands. */
const RECORDS: [name: string, read: Reads, where: Where[]][] = [
  ['the answer', (r) => [answer(r).text], ['terminal']],
  [
    'the first page',
    (r) => {
      const page = readFrontPage(r, reportWords('en'));
      return [...page.answer, ...page.sure];
    },
    ['report', 'short'],
  ],
  ['the answer in parts', (r) => [answer(r).headline, answer(r).rest], ['lake']],
  [
    'the area above the threshold',
    (r) => [areaAboveThreshold(r)?.sentence ?? null],
    ['report', 'terminal'],
  ],
  ['surveyed habitat', (r) => [answer(r).habitat], ['report', 'terminal', 'lake']],
  ['what the intervals cover', (r) => [answer(r).intervals], ['report', 'lake']],
  ['the design-based estimate', (r) => [designSentence(r)], ['report', 'terminal']],
  ['what was searched', (r) => searchedList(facts(r), r.domain), ['report']],
  ['what was searched, in lines', (r) => searchedLines(facts(r)), ['terminal']],
  [
    'detection probabilities',
    (r) => detectionRows(r).map((d) => [d.label, d.design, d.share, d.interval ?? '']),
    ['report', 'detection'],
  ],
  [
    'detection probabilities of observers',
    (r) =>
      (readDetection(r)?.groups ?? []).flatMap((g) =>
        g.observers.map((d) => [d.label, d.design, d.share, d.interval ?? '']),
      ),
    ['terminal'],
  ],
  ['mean detection probability', (r) => [readDetection(r)?.mean ?? null], ['report', 'terminal']],
  [
    'detections by perpendicular distance',
    (r) => (readDistances(r)?.classes ?? []).map((c) => [c.name, c.observedText, c.expectedText]),
    ['report', 'detection', 'density'],
  ],
  [
    'cluster sizes',
    (r) => (readSizes(r)?.classes ?? []).map((c) => [c.name, c.observedText, c.expectedText]),
    ['report', 'detection'],
  ],
  ['mean cluster size', (r) => [sizeSentence(r)], ['report', 'terminal', 'detection']],
  [
    'substrates',
    (r) => bySubstrate(r).map((s) => [s.words, s.area, ...s.density, ...s.mussels]),
    ['report', 'terminal'],
  ],
  [
    'depth bands',
    (r) => strata(r).depths.map((d) => [d.band, d.area, ...d.density, ...d.mussels]),
    ['report', 'terminal'],
  ],
  [
    'both margins, density without its interval',
    (r) => [
      ...bySubstrate(r).map((s) => [s.words, s.area, s.density[0], ...s.mussels]),
      ...strata(r).depths.map((d) => [d.band, d.area, d.density[0], ...d.mussels]),
    ],
    ['lake'],
  ],
  ['plant cover of the densities', (r) => [strata(r).basis], ['report', 'terminal', 'lake']],
  [
    'strata',
    (r) =>
      bySubstrate(r).flatMap((s) =>
        s.strata.map((one) => [one.band, one.area, ...one.density, ...one.mussels]),
      ),
    ['report', 'terminal'],
  ],
  [
    'the whole lake',
    (r) => {
      const { whole } = strata(r);
      return [whole && [whole.area, ...whole.density, ...whole.mussels]];
    },
    ['report', 'terminal'],
  ],
  [
    'treatment areas',
    (r) => (treatmentAreas(r)?.rows ?? []).map((t) => [t.name, t.area, ...t.mussels, t.share]),
    ['report', 'terminal', 'lake'],
  ],
  [
    'outside the surveyed habitat, in a table',
    (r) => (exclusions(r)?.rows ?? []).map((e) => [e.words, e.areaBare]),
    ['report'],
  ],
  [
    'outside the surveyed habitat, in lines',
    (r) => (exclusions(r)?.rows ?? []).map((e) => [e.area, e.words]),
    ['terminal'],
  ],
  ['outside the surveyed habitat, in a sentence', (r) => [exclusions(r)?.text ?? null], ['lake']],
  [
    'checks',
    (r) => (readChecks(r) ?? []).map((c) => `${c.figures}: ${c.meaning}`),
    ['report', 'terminal', 'density'],
  ],
  [
    'detected and expected',
    (r) =>
      observedTables(r).flatMap((table) =>
        (table?.groups ?? []).flatMap((g) =>
          g.rows.map((row) => [row.label, row.observedText, row.expectedText]),
        ),
      ),
    ['report', 'density'],
  ],
  [
    'influence of transects',
    (r) => (readInfluence(r, 8)?.shown ?? []).map((t) => [t.transect, t.text]),
    ['report', 'density'],
  ],
  [
    'densities, a row a depth',
    (r) => (densityTable(r, 14)?.rows ?? []).map((d) => [d.depth, ...d.cells.flatMap(cellsOf)]),
    ['density', 'lake'],
  ],
  [
    'densities, a row a substrate',
    (r) => {
      const table = densityTable(r, 5);
      const cells = (i: number) => (table?.rows ?? []).flatMap((d) => cellsOf(d.cells[i] ?? null));
      return (table?.names ?? []).map((name, i) => [name, ...cells(i)]);
    },
    ['report'],
  ],
  [
    'models',
    (r) =>
      modelLines(r)
        .slice(0, SHOWN.report)
        .map((m) => [m.logLikelihood, m.delta, m.weight]),
    ['report'],
  ],
  [
    'models compared',
    (r) =>
      compared(r)
        .slice(0, SHOWN.page)
        .map((m) => [m.detectionFunction, m.delta, m.weight]),
    ['density'],
  ],
  [
    'the best models',
    (r) =>
      compared(r)
        .slice(0, 6)
        .map((m) => [m.family, m.transectEffect, m.detectionFunction, m.delta, m.weight]),
    ['terminal'],
  ],
  ['the one model', (r) => [readModels(r)?.single ?? null], ['terminal']],
  ['boundaries', (r) => readModels(r)?.notes ?? [], ['report', 'terminal', 'density']],
  [
    'the number of notices',
    (r) => some(readNotices(r.findings), (n) => n.title),
    ['report', 'terminal'],
  ],
  [
    'notices by themselves',
    (r) => readNotices(r.findings).kinds.map((k) => [k.place, k.message]),
    ['survey'],
  ],
  [
    'the number of notices, in words',
    (r) => some(readNotices(r.findings), (n) => n.counted),
    ['survey'],
  ],
  [
    'notices',
    (r) =>
      readNotices(r.findings).kinds.map((k) =>
        [k.place, ': ', k.message, k.more === null ? '' : ` ${k.more}`].join(''),
      ),
    ['report', 'terminal'],
  ],
];

const FOLDERS: [name: string, path: string][] = [
  ['demo-lake', join(import.meta.dirname, '../../demo-lake')],
  ...LAKES.map((name): [string, string] => [name, lakePath(name)]),
];
/** Kinds of records of which some lake had one. */
const met = new Set<string>();

/** Where there is no notice nobody counts them. */
function some(
  notices: ReturnType<typeof readNotices>,
  read: (n: typeof notices) => Words,
): Words[] {
  return notices.count === 0 ? [] : [read(notices)];
}

describe.each(FOLDERS)('%s', (_, folder) => {
  let lake: Shown;
  beforeAll(async () => {
    lake = await shown(folder);
  }, 120_000); // a busy machine

  it.each(RECORDS)('%s', (name, read, where) => {
    const words = read(lake.result).filter((one) => one !== null);
    if (words.length > 0) met.add(name);
    for (const place of where) {
      const missing = words.filter((one) => !stands(one, textAt(lake, place)));
      expect(missing, place).toEqual([]);
    }
  });

  it('every number of the terminal stands in the report', () => {
    const known = new Set(numbersOf(lake.report));
    const own = numbersOf(lake.terminal);
    expect(own.length).toBeGreaterThan(100);
    expect(own.filter((n) => !known.has(n))).toEqual([]);
  });

  it('notices are the same number everywhere: result, files, report, terminal, page', () => {
    const { result, state, files } = lake;
    const { count } = readNotices(result.findings);
    const rows = String(files.get('warnings.csv')).trimEnd().split('\n').length - 1;
    expect([
      result.estimate.warnings.length,
      rows,
      readNotices(state.judged?.findings ?? []).count,
    ]).toEqual([count, count, count]);
  });
});

it('every kind of record is met in one of the lakes', () => {
  expect(RECORDS.map(([name]) => name).filter((name) => !met.has(name))).toEqual([]);
});

describe('what stands', () => {
  it.each<[Words, string]>([
    ['1,464 mussels', 'a total of 1,464 mussels.'],
    [['sand', '11.2', '140,000'], 'sand 11.2 27.7 140,000 31 %'],
    ['p = 0.65', 'χ² 2, p = 0.65: well'],
  ])('%j does in %j', (words, text) => {
    expect(stands(words, text)).toBe(true);
  });

  it.each<[Words, string]>([
    ['464 mussels', 'a total of 1,464 mussels'],
    ['1.46', '1.464'],
    ['1', '1.4'],
    ['1,464', '1,464,000'],
    [['sand', '140,000', '11.2'], 'sand 11.2 140,000'],
    ['sand', 'sandy'],
  ])('%j does not in %j', (words, text) => {
    expect(stands(words, text)).toBe(false);
  });
});

function textAt({ report, short, terminal, page }: Shown, where: Where): string {
  if (where === 'report') return report;
  if (where === 'short') return short;
  return where === 'terminal' ? terminal : page[where];
}

function numbersOf(text: string): string[] {
  return text.match(/(?<![\p{L}\p{N}.,])[−+-]?\d[\d,]*(?:\.\d+)?/gu) ?? [];
}
