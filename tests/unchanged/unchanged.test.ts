/**
 * A guard for rebuilding, not a source of truth: estimate.json of five lakes as commit f0969ee wrote it, before results
 * were read in one place. Every number that stood there still stands under the same name to 1e-9 of itself; words and
 * added fields are free. Whoever changes a number on purpose writes these files anew and says why in CHANGELOG.md.
 * That the numbers are right is for tests/published and tests/models/reference-lakes.test.ts to show.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { estimateSurvey } from '../../src/pipeline.ts';
import { LAKES, referenceLake } from '../helpers/reference-lake.ts';

const RESULTS: [string, () => Promise<SurveyResult>][] = [
  ['rim-lake', rimLake],
  ...LAKES.map((name): [string, () => Promise<SurveyResult>] => [
    name,
    async () => (await referenceLake(name)).result,
  ]),
];

/** Sums in another order differ in their last digits. */
const SAME = 1e-9;
/** Below this a number is rounding itself (the gradient at the maximum). */
const DUST = 1e-9;

describe('numbers of estimate.json are those from before', () => {
  it.each(RESULTS)('%s', async (name, resultOf) => {
    const result = await resultOf();
    const before: unknown = JSON.parse(
      readFileSync(new URL(`${name}.json`, import.meta.url), 'utf8'),
    );
    const now: unknown = JSON.parse(JSON.stringify(result.estimate));
    const known = numbersOf(before);
    expect(known.size).toBeGreaterThan(100);
    const current = numbersOf(now);
    const moved = [...known].filter(([path, was]) => {
      const is = current.get(path);
      return is === undefined || Math.abs(is - was) > SAME * Math.abs(was) + DUST;
    });
    expect(moved.map(([path, was]) => `${path}: ${was} is now ${current.get(path)}`)).toEqual([]);
  });
});

/** The demo lake until its searched bed was made wider than a rim along the shore. */
async function rimLake(): Promise<SurveyResult> {
  const folder = new URL('rim-lake/', import.meta.url);
  const files = new Map(
    readdirSync(folder).map((name) => [name, new Uint8Array(readFileSync(new URL(name, folder)))]),
  );
  const done = await estimateSurvey({ name: 'rim-lake', files });
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  return done.result;
}

/** Dotted path → number, for every finite number of a parsed JSON text; rows of warnings are told elsewhere. */
function numbersOf(
  value: unknown,
  path = '',
  into = new Map<string, number>(),
): Map<string, number> {
  if (typeof value === 'number') into.set(path, value);
  else if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value))
      if (key !== 'warnings') numbersOf(inner, path === '' ? key : `${path}.${key}`, into);
  return into;
}
