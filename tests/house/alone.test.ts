/** Tests that share a process put nothing in place there that the next file would meet. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ALONE } from '../alone.ts';

const TESTS = join(import.meta.dirname, '..');

/** Modules and globals put in place, the clock, the folder, the environment. */
const STAYS =
  /\bvi\.(mock|doMock|stub\w+|useFakeTimers|setSystemTime)\(|'fake-indexeddb\b|\bprocess\.(chdir\(|env\.\w+ = )|\bglobalThis(\.\w+|\[[^\]]+\]) = /;

describe('tests that share a process', () => {
  const shared = readdirSync(TESTS, { recursive: true, encoding: 'utf8' })
    .map((name) => `tests/${name.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('.test.ts'))
    .filter((path) => !ALONE.some((alone) => path.startsWith(alone)));

  it('put nothing in place of what others use', () => {
    expect(shared.length).toBeGreaterThan(150);
    const own = 'tests/house/alone.test.ts'; // shows below what is found
    const left = shared.filter(
      (path) => path !== own && STAYS.test(readFileSync(join(TESTS, '..', path), 'utf8')),
    );
    expect(left).toEqual([]);
  });

  it.each(ALONE)('%s, which does not share one, is there', (path) => {
    expect(existsSync(join(TESTS, '..', path))).toBe(true);
  });

  it.each([
    "vi.mock('../x.ts', () => ({}));",
    "vi.stubGlobal('localStorage', null);",
    'vi.useFakeTimers();',
    "import 'fake-indexeddb/auto';",
    "process.chdir('/');",
    "process.env.TZ = 'CET';",
    'globalThis.fetch = other;',
    "globalThis['fetch'] = other;",
  ])('%s is found', (text) => {
    expect(STAYS.test(text)).toBe(true);
  });
});
