/** No circles, not of types either: a file can be read after those that it imports, whatever the file. */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { circlesOf, importGraph, wayRound } from './circles.ts';

const ROOT = new URL('../../', import.meta.url);

const sources = new Map(
  ['shared', 'models', 'src'].flatMap((top) =>
    readdirSync(new URL(`${top}/`, ROOT), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(ts|tsx|mjs)$/.test(name))
      .map((name): [string, string] => {
        const path = `${top}/${name.replaceAll('\\', '/')}`;
        return [path, readFileSync(new URL(path, ROOT), 'utf8')];
      }),
  ),
);
const graph = importGraph(sources);

describe('imports have no circles', () => {
  it('are all walked', () => {
    expect(graph.size).toBeGreaterThan(300);
    expect(graph.get('src/pipeline.ts')?.length).toBeGreaterThan(5);
  });

  it('shared, models and src', () => {
    const ways = circlesOf(graph).map((group) => wayRound(graph, group).join(' → '));
    expect(ways).toEqual([]);
  });
});

describe('the walk', () => {
  const files = (texts: Record<string, string>) => importGraph(new Map(Object.entries(texts)));

  it('shows a circle of types over folders, the shortest way round', () => {
    const made = files({
      'a/one.ts': "import type { Two } from '../b/two.ts';\nimport { far } from './far.ts';",
      'b/two.ts': "export { three } from './three.ts';\nimport fs from 'node:fs';",
      'b/three.ts': "const one = await import('../a/one.ts');\nimport { two } from './two.ts';",
      'a/far.ts': "import { leaf } from './leaf.ts';",
      'a/leaf.ts': 'export const leaf = 1;',
    });
    const [group, ...more] = circlesOf(made);
    expect(more).toEqual([]);
    expect(group).toEqual(['a/one.ts', 'b/three.ts', 'b/two.ts']);
    expect(wayRound(made, group ?? [])).toEqual(['b/three.ts', 'b/two.ts', 'b/three.ts']);
  });

  it('a file that imports itself, and two circles apart', () => {
    const made = files({
      'x.ts': "import { x } from './x.ts';",
      'p.ts': "import './q.ts';",
      'q.ts': "import './p.ts';\nimport './x.ts';",
    });
    expect(circlesOf(made)).toEqual([['p.ts', 'q.ts'], ['x.ts']]);
    expect(wayRound(made, ['x.ts'])).toEqual(['x.ts', 'x.ts']);
  });

  it('none where two ways lead to one file', () => {
    const made = files({
      'top.ts': "import './left.ts';\nimport './right.ts';",
      'left.ts': "import './leaf.ts';",
      'right.ts': "import './leaf.ts';\nimport data from './data.json' with { type: 'json' };",
      'leaf.ts': '',
    });
    expect(circlesOf(made)).toEqual([]);
    expect(() => wayRound(made, ['top.ts', 'leaf.ts'])).toThrow('expected a circle');
  });
});
