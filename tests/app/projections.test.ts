/** What the browser is given of proj4 suffices for everything that a survey may come in. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PROJECTIONS } from '../../src/app/worker/projections.ts';

const SRC = join(import.meta.dirname, '../../src');

it('every projection that the sources name is built into the application', () => {
  const named = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .flatMap((name) => readFileSync(join(SRC, name), 'utf8').match(/(?<=\+proj=)[a-z]+/g) ?? []);
  expect(new Set(named).size).toBeGreaterThanOrEqual(7);
  expect(named.filter((name) => !PROJECTIONS.includes(name))).toEqual([]);
});
