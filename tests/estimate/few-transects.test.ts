/** Surveys of a few transects of a sound survey, and of depths that give a curve no hold: a number, or why there is none. */

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Folder } from '../../src/pipeline.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { outcomeOf } from '../fuzz/judge.ts';
import { soundSurveys } from '../fuzz/surveys.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';

const ROOT = join(import.meta.dirname, '../..');
const TABLES = ['transects.csv', 'habitat.csv', 'detections.csv'];

/** The survey with these transects alone. */
function only(name: string, ...kept: string[]): Folder {
  const files = soundSurveys(ROOT)
    .find((sound) => sound.name === name)
    ?.files();
  if (files === undefined) throw new Error(`got the survey ${name}, expected a known one`);
  for (const table of TABLES) {
    const [head = '', ...rows] = new TextDecoder().decode(files.get(table)).split(/\r?\n/);
    const at = head.split(',').indexOf('transect');
    const own = rows.filter((row) => kept.includes(row.split(',')[at] ?? ''));
    files.set(table, new TextEncoder().encode([head, ...own, ''].join('\n')));
  }
  return { name: 'survey', files };
}

/** The curve of depth asked for. */
function withCurve({ name, files }: Folder): Folder {
  const choices = JSON.parse(new TextDecoder().decode(files.get('analysis.json')));
  choices.density = { ...choices.density, depth: 'curve' };
  const text = new TextEncoder().encode(JSON.stringify(choices));
  return { name, files: new Map(files).set('analysis.json', text) };
}

async function errorsOf(folder: Folder): Promise<string[]> {
  const estimated = await estimateSurvey(folder);
  const findings = estimated.ok ? [] : estimated.findings;
  return findings.filter((f) => f.severity === 'error').map((f) => f.message);
}

describe('a curve of depth without a hold on the map', () => {
  it('gives no number, and says so: five transects at nearly one depth', async () => {
    const five = only('demo-lake', 'T17', 'T39', 'T42', 'T48', 'T07');
    const errors = await errorsOf(withCurve(five));
    expect(errors).toEqual([expect.stringContaining('more than 1,000 times that of the searched')]);
    // left to the data, depth has no curve there
    expect(await errorsOf(five)).toEqual([]);
  });

  it('and depths of a few micrometres on every sheet', async () => {
    const texts = baseSurvey();
    const [head = '', ...rows] = (texts['habitat.csv'] ?? '').split('\n');
    const at = head.split(',').indexOf('depth_m');
    const shrunk = rows.map((row) =>
      row
        .split(',')
        .map((cell, k) => (k === at && cell !== '' ? String(Number(cell) * 1e-6) : cell))
        .join(','),
    );
    texts['habitat.csv'] = [head, ...shrunk].join('\n');
    const errors = await errorsOf(toFolder(texts));
    expect(errors).toEqual([expect.stringContaining('more than 1,000 times that of the searched')]);
  });
});

describe('a transect or two of a sound survey', () => {
  it.each([
    ['demo-lake', 'T01'],
    ['demo-lake', 'T03,T29'],
    ['demo-lake', 'T48,T07,T12'],
  ])('of %s, %s: no error of the program, and no number that is none', async (name, kept) => {
    const { problem } = await outcomeOf(only(name, ...kept.split(',')), 'estimate');
    expect(problem).toBeNull();
  });
});
