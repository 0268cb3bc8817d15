/** Imports follow the data: held over the whole tree, and the rule itself shown to catch what breaks it. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { transformSync } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { importsOf, violations } from './rule.ts';

const ROOT = join(import.meta.dirname, '../..');

const sources = ['shared', 'models', 'src'].flatMap((top) =>
  readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|tsx|mjs)$/.test(name))
    .map((name) => `${top}/${name.replaceAll('\\', '/')}`),
);

/** The code without comments and types. */
function codeOf(path: string, source: string): string {
  return transformSync(source, {
    loader: path.endsWith('x') ? 'tsx' : 'ts',
    minifyWhitespace: true,
  }).code;
}

describe('the import rule', () => {
  it('finds the sources', () => {
    for (const known of [
      'shared/survey.ts',
      'src/publish/index.ts',
      'src/cli/main.ts',
      'models/likelihood.ts',
    ])
      expect(sources).toContain(known);
  });

  it.each(sources)('%s', (path) => {
    const source = readFileSync(join(ROOT, path), 'utf8');
    expect(violations(path, source, codeOf(path, source))).toEqual([]);
  });
});

describe('the rule catches', () => {
  it.each([
    ['a model that knows a step', 'models/fit.ts', "import { x } from '../src/read/index.ts';"],
    ['a model that knows the disk', 'models/fit.ts', "import fs from 'node:fs';"],
    ['a model with a map library', 'models/fit.ts', "import * as turf from '@turf/turf';"],
    [
      'a record type with logic of the models',
      'shared/survey.ts',
      "import { fit } from '../models/fit.ts';",
    ],
    ['a package in shared', 'shared/tables.ts', "import Papa from 'papaparse';"],
    [
      'two steps that know each other',
      'src/cut/index.ts',
      "import { p } from '../place/index.ts';",
    ],
    ['… also through export', 'src/cut/index.ts', "export { p } from '../place/index.ts';"],
    [
      '… also over several lines',
      'src/cut/index.ts',
      "import {\n  p,\n  q,\n} from '../place/index.ts';",
    ],
    ['… also for types', 'src/cut/index.ts', "import type { P } from '../place/index.ts';"],
    ['… also late', 'src/cut/index.ts', "const m = await import('../place/index.ts');"],
    [
      'a step that knows who shows its work',
      'src/estimate/index.ts',
      "import { words } from '../present/answer.ts';",
    ],
    ['a reading that draws', 'src/present/answer.ts', "import { html } from '../publish/html.ts';"],
    [
      'a file writer that knows the pipeline',
      'src/publish/index.ts',
      "import { run } from '../pipeline.ts';",
    ],
    [
      'a step that reads the disk',
      'src/read/index.ts',
      "import { readFile } from 'node:fs/promises';",
    ],
    [
      'the pipeline that knows the command line',
      'src/pipeline.ts',
      "import { main } from './cli/main.ts';",
    ],
    [
      'a step that reaches past what the models offer',
      'src/estimate/index.ts',
      "import type { Layout } from '../../models/parts.ts';",
    ],
    [
      'a worker that does',
      'src/app/worker/paint.ts',
      "import { jet } from '../../../models/numbers/jet.ts';",
    ],
    ['an import without its ending', 'src/cli/main.ts', "import { x } from './check';"],
    ['a folder that is not in the rule', 'src/extra/index.ts', "import { x } from './y.ts';"],
    ['unseeded chance', 'models/simulate.ts', 'const u = Math.random();'],
    ['a clock in a model', 'models/fit.ts', 'const t = new Date(0);'],
    ['today in a step', 'src/place/index.ts', 'const t = new Date();'],
    ['the network', 'src/read/index.ts', 'const r = await fetch(address);'],
    ['the screen', 'src/publish/report.ts', "const d = document.createElement('p');"],
    ['the process', 'shared/units.ts', 'if (process.env.X) y();'],
    ['printing', 'models/fit.ts', 'console.log(x);'],
  ])('%s', (_, path, source) => {
    expect(violations(path, source)).toHaveLength(1);
  });

  it('and lets through what is allowed', () => {
    const cases: [string, string][] = [
      [
        'models/fit.ts',
        "import { Matrix } from 'ml-matrix';\nimport { a } from './numbers/solve.ts';",
      ],
      [
        'src/read/index.ts',
        "import Papa from 'papaparse';\nimport type { S } from '../../shared/survey.ts';",
      ],
      ['src/place/index.ts', 'const t = new Date(text);'],
      ['src/publish/report.ts', "import { answer } from '../present/answer.ts';"],
      ['src/estimate/index.ts', "import { diagnose } from '../../models/index.ts';"],
      ['src/pipeline.ts', "import { readFolder } from './read/index.ts';"],
      ['src/cli/main.ts', "import { readFile } from 'node:fs/promises';\nconst now = Date.now();"],
      ['models/fit.ts', 'const x = record.document.length + myprocess.rate;'],
    ];
    for (const [path, source] of cases) expect(violations(path, source)).toEqual([]);
  });

  it('every form of import', () => {
    expect(
      importsOf(
        "import 'a';\nimport b from \"b\";\nexport * from 'c';\nawait import('d');\nconst from = 'e';",
      ),
    ).toEqual(['a', 'b', 'c', 'd']);
  });
});
