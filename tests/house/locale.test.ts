/**
 * Numbers, dates and orders do not depend on the language of the machine: one lake estimated on a cluster whose machines speak
 * several would not come to the same bytes. Each such call names its language.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');

/** Moments of the reader's own work, in the reader's own way. */
const READERS_OWN = new Set(['src/app/shell/Landing.tsx', 'src/app/shell/ChangeList.tsx']);

/** Calls that take the machine's language. ECMA-402: a locale left out is that of the host. */
function hostLocale(text: string): string[] {
  const calls =
    /\.localeCompare\((?:[^(),]|\([^()]*\))*\)|\.toLocale\w+\(\)|new Intl\.\w+\((?:undefined\b[^)]*)?\)/g;
  return text.match(calls) ?? [];
}

describe('the language of the machine', () => {
  it('decides nothing in the whole house', () => {
    const paths = ['shared', 'models', 'src'].flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
        .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
        .filter((path) => /\.(ts|tsx|mjs)$/.test(path) && !READERS_OWN.has(path)),
    );
    expect(paths.length).toBeGreaterThan(300);
    const found = paths.flatMap((path) =>
      hostLocale(readFileSync(join(ROOT, path), 'utf8')).map((call) => `${path}: ${call}`),
    );
    expect(found).toEqual([]);
  });

  it.each([
    ['a.localeCompare(b)', 1],
    ['a.x.localeCompare(of(b.x))', 1],
    ["a.localeCompare(b, 'en')", 0],
    ['n.toLocaleString()', 1],
    ["n.toLocaleString('en')", 0],
    ['new Intl.ListFormat()', 1],
    ['new Intl.NumberFormat(undefined, options)', 1],
    ['new Intl.NumberFormat(tag, options)', 0],
  ])('%s', (call, count) => {
    expect(hostLocale(`const x = ${call};`)).toHaveLength(count);
  });
});
