/** No list of any length is spread into a call: 200,000 transects or a million detections would overflow the stack. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { spreadsOf } from './spreads.ts';

const ROOT = join(import.meta.dirname, '../..');

/** Lists that the source itself keeps short. */
const SHORT = new Set(['String.fromCharCode(...head.slice(0, 7))']);

describe('lists spread into calls', () => {
  const sources = ['shared', 'models', 'src'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
      .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
      .filter((path) => /\.(ts|tsx|mjs)$/.test(path))
      .map((path): [string, string] => [path, readFileSync(join(ROOT, path), 'utf8')]),
  );

  it('are none in the whole house, but short ones', () => {
    expect(sources.length).toBeGreaterThan(300);
    const found = sources.flatMap(([path, text]) =>
      text.includes('...') ? spreadsOf(path, text) : [],
    );
    expect(found.filter((call) => !SHORT.has(call.replace(/^\S+ /, '')))).toEqual([]);
    expect(found).toHaveLength(SHORT.size);
  });

  it.each([
    'Math.max(...values)',
    'Math.hypot(1, ...values.map(Math.abs))',
    'list.push(...more)',
    'this.lists[k].push(...(known ? [one] : more))',
    'list.splice(0, 1, ...[one, ...more])',
    'String.fromCharCode(...bytes)',
  ])('%s is found', (call) => {
    expect(spreadsOf('x.ts', `const a = 1;\n${call};`)).toEqual([`x.ts:2 ${call}`]);
  });

  it.each([
    'Math.max(a, b)',
    'list.push(...(known ? [one] : []))',
    'const whole = [...list, ...more]',
    'ourOwn(...extent(values))',
    'const f = (...values: number[]) => values',
  ])('%s is not', (text) => {
    expect(spreadsOf('x.ts', `${text};`)).toEqual([]);
  });
});
