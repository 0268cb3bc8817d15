/**
 * One malformed survey for each error and each notice of the tables and the choices: exactly the expected
 * findings, with file, row, column and words, and nothing that merely follows from them.
 * Owner of the expected rows: counted by hand in the base survey (header = row 1).
 */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Finding, formatFinding } from '../../shared/findings.ts';
import { checkSurvey } from '../../src/check/index.ts';
import { readFolder } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { all, type Bend, setCell } from '../helpers/bend.ts';
import { ANALYSIS_CASES } from './analysis-cases.ts';
import { A, type Case, D, type Expected, H, T } from './cases.ts';
import { CELL_CASES } from './cell-cases.ts';
import { FILE_CASES } from './file-cases.ts';
import { NOTICE_CASES } from './notice-cases.ts';
import { PLANTED_CASES } from './planted-cases.ts';
import { QUIET_CASES } from './quiet-cases.ts';
import { RULE_CASES } from './rule-cases.ts';
import { SEARCH_CASES } from './search-cases.ts';

const ERROR_CASES = [
  ...CELL_CASES,
  ...FILE_CASES,
  ...RULE_CASES,
  ...SEARCH_CASES,
  ...QUIET_CASES,
  ...ANALYSIS_CASES,
  ...PLANTED_CASES,
];

async function judge(bend: Bend, bytes?: Case['bytes']): Promise<Finding[]> {
  const texts = baseSurvey();
  bend(texts);
  const folder = toFolder(texts);
  if (bytes !== undefined) folder.files.set(bytes.file, bytes.bytes);
  const reading = await readFolder(folder);
  return [...reading.findings, ...checkSurvey(reading)];
}

const key = ({ code, table, row, column }: Expected | Finding) =>
  `${table} | ${row ?? '-'} | ${column ?? '-'} | ${code}`;

function hold(findings: Finding[], expected: Expected[]): void {
  expect(findings.map(key).sort()).toEqual(expected.map(key).sort());
  for (const one of expected) {
    const finding = findings.find((candidate) => key(candidate) === key(one))!;
    for (const words of one.says) expect(finding.message).toContain(words);
    expect(finding.severity).toBe(one.notice === true ? 'notice' : 'error');
    const line = formatFinding(finding);
    expect(line).not.toMatch(/[\n\r]/);
    if (one.row !== undefined && one.table.endsWith('csv')) {
      expect(line).toContain(`${one.table} row ${one.row}`);
    }
  }
}

it('the base survey has no finding at all', async () => {
  expect(await judge(() => {})).toEqual([]);
});

describe('one error each', () => {
  it.each(ERROR_CASES.map((one) => [one.name, one] as const))('%s', async (_, one) => {
    const findings = await judge(one.bend, one.bytes);
    hold(
      findings.filter(({ severity }) => severity === 'error'),
      one.expected,
    );
  });
});

describe('one notice each, and the run goes on', () => {
  it.each(NOTICE_CASES.map((one) => [one.name, one] as const))('%s', async (_, one) => {
    hold(await judge(one.bend), one.expected);
  });
});

it('thirty different mistakes give thirty lines', async () => {
  const bends: Bend[] = [
    setCell(T, 2, 'date', '2025-02-30'),
    setCell(T, 2, 'start_lat', '95'),
    setCell(T, 2, 'stop', 'cold'),
    setCell(T, 3, 'length_m', '3O'),
    setCell(T, 3, 'search_min', '7:75'),
    setCell(T, 3, 'secondary', 'Ben'),
    setCell(T, 4, 'bearing_deg', '400'),
    setCell(T, 4, 'width_m', '0'),
    setCell(T, 5, 'end_lat', ''),
    setCell(T, 6, 'design', 'line'),
    setCell(T, 7, 'clarity_m', '-3'),
    setCell(T, 7, 'bearing_ref', 'grid'),
    setCell(H, 2, 'substrate', 'granite'),
    setCell(H, 3, 'plant_cover', '7'),
    setCell(H, 4, 'depth_m', '-3'),
    setCell(H, 7, 'substrate', 'sand+sand'),
    setCell(H, 11, 'substrate', 'sand+'),
    setCell(H, 10, 'distance_m', '0.5'),
    setCell(H, 13, 'distance_m', '31'),
    setCell(H, 16, 'distance_m', '12'),
    setCell(H, 20, 'depth_m', 'deep'),
    setCell(H, 25, 'depth_m', '30'),
    setCell(D, 2, 'role', 'third'),
    setCell(D, 3, 'count', '20+'),
    setCell(D, 4, 'count', '0'),
    setCell(D, 5, 'offset_m', '0.3'),
    setCell(D, 12, 'transect', 'T99'),
    setCell(D, 13, 'distance_m', '35'),
    setCell(D, 18, 'offset_m', ''),
    setCell(D, 19, 'offset_m', '50'),
  ];
  expect(bends).toHaveLength(30);
  const errors = (await judge(all(...bends))).filter(({ severity }) => severity === 'error');
  const lines = new Set(errors.map(formatFinding));
  expect(lines.size, [...lines].join('\n')).toBe(30);
  expect(errors).toHaveLength(30);
});

it('findings come by file and by row', async () => {
  const bend = all(
    setCell(D, 3, 'count', 'x'),
    setCell(T, 6, 'date', 'x'),
    setCell(T, 2, 'date', 'x'),
    setCell(H, 9, 'depth_m', 'x'),
    (texts) => {
      texts[A] = '{ "seed": -1 }';
    },
  );
  const places = (await judge(bend)).map(({ table, row }) => [table, row]);
  expect(places).toEqual([
    [T, 2],
    [T, 6],
    [H, 9],
    [D, 3],
    [A, null],
  ]);
});

it('every code in the sources has a survey here', () => {
  const sources = [
    ...['analysis', 'cells', 'csv', 'index', 'tables', 'text'].map((name) => `src/read/${name}.ts`),
    ...readdirSync('src/check').map((name) => `src/check/${name}`),
  ].map((path) => readFileSync(path, 'utf8'));
  const literals = sources.flatMap((text) => text.match(/'[a-z0-9]+(-[a-z0-9]+)+'/g) ?? []);
  const codes = new Set([...literals, "'delimiter'"].map((literal) => literal.slice(1, -1)));
  codes.delete('utf-8');
  // judged after placing, with the depth map: tests/check/feet.test.ts
  codes.delete('map-depth-in-feet');
  // likewise: tests/repair/traps*.test.ts
  codes.delete('depth-in-feet-on-transect');
  codes.delete('depths-run-against-map');
  // with a map of such places: tests/lake/no-dive.test.ts
  codes.delete('searched-where-no-dive');
  const met = new Set(
    [...ERROR_CASES, ...NOTICE_CASES].flatMap((one) => one.expected.map((e) => e.code)),
  );
  expect([...codes].filter((code) => !met.has(code))).toEqual([]);
  expect(codes.size).toBeGreaterThan(40);
});
