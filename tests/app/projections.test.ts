/** What the browser is given of proj4 suffices for everything that a survey may come in. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PROJECTIONS } from '../../src/app/worker/projections.ts';

const ROOT = join(import.meta.dirname, '../..');

it('every projection that the sources name is built into the application', () => {
  const named = ['src', 'shared']
    .flatMap((top) =>
      readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' }).map((name) =>
        join(ROOT, top, name),
      ),
    )
    .filter((path) => path.endsWith('.ts'))
    .flatMap((path) => readFileSync(path, 'utf8').match(/(?<=\+proj=|proj: ')[a-z]+/g) ?? []);
  expect(new Set(named).size).toBeGreaterThanOrEqual(7);
  expect(named.filter((name) => !PROJECTIONS.includes(name))).toEqual([]);
});
