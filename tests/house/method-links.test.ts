/**
 * The method is in the house: what comments and pages point to exists, and the table of constants in models/METHOD.md
 * says what the code says.
 */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { type Constant, constantsOf, papersOf, referencesOf } from './constants.ts';
import { fragmentOf, headingsOf, linksOf, tableRows } from './markdown.ts';

const ROOT = join(import.meta.dirname, '../..');
const METHOD = 'models/METHOD.md';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const filesIn = (folder: string, kind: RegExp): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((path) => kind.test(path));

const sources = ['shared', 'models', 'src', 'tests', 'demo-lake']
  .flatMap((folder) => filesIn(folder, /\.(ts|tsx|mjs)$/))
  // these hold what the test must catch
  .filter((path) => !path.startsWith('tests/house/'));

describe('references to the method', () => {
  const headings = new Set(headingsOf(read(METHOD)));
  it.each(sources.filter((path) => /\bmethod\b|METHOD\.md/i.test(read(path))))('%s', (path) => {
    const { headings: named, bare } = referencesOf(read(path));
    expect(named.filter((heading) => !headings.has(heading))).toEqual([]);
    expect(bare).toEqual([]);
  });

  it('the reader finds them over line ends, and finds bare ones', () => {
    expect(referencesOf('/**\n * x (METHOD.md: What cannot\n * be told apart). */')).toEqual({
      headings: ['What cannot be told apart'],
      bare: [],
    });
    expect(referencesOf('// y (METHOD.md: Boundaries; METHOD.md: Detection)').headings).toEqual([
      'Boundaries',
      'Detection',
    ]);
    expect(referencesOf('// (method: likelihood)').bare).toEqual(['method: likelihood']);
    expect(referencesOf('// see method 5').bare).toEqual(['method 5']);
    expect(referencesOf("// Newton's method, 2 steps; the delta method says").bare).toEqual([]);
    expect(referencesOf('const x = { method: 5 };').bare).toEqual([]);
  });
});

describe('the reference list', () => {
  const entries = read(METHOD).split('## References')[1]?.split('\n- ') ?? [];
  const isListed = ({ author, year }: { author: string; year: string }): boolean =>
    entries.some((entry) => entry.includes(author) && entry.includes(`(${year})`));

  it.each(sources.filter((path) => /^(models|src\/(place|cut|lake|estimate|check))\//.test(path)))(
    'has every paper that %s cites',
    (path) => {
      expect(papersOf(read(path)).filter((paper) => !isListed(paper))).toEqual([]);
    },
  );

  it('has every paper that the method names', () => {
    const text = read(METHOD).split('## References')[0] ?? '';
    expect(papersOf(`/* ${text} */`).filter((paper) => !isListed(paper))).toEqual([]);
  });

  it('the reader knows the usual ways to cite', () => {
    const source =
      '// Cook & Jacobson 1979; Fewster et al. (2009), Hurvich & Tsai (1989); since May 2026';
    expect(papersOf(source)).toEqual([
      { author: 'Cook', year: '1979' },
      { author: 'Fewster', year: '2009' },
      { author: 'Hurvich', year: '1989' },
    ]);
    expect(isListed({ author: 'Nobody', year: '1979' })).toBe(false);
  });
});

const pages = [
  ...['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'demo-lake/README.md'],
  ...filesIn('models', /\.md$/),
  ...filesIn('tests', /(^|\/)README\.md$/),
];

describe('links between pages', () => {
  it.each(pages)('%s', (page) => {
    expect(linksOf(read(page)).filter((link) => !leadsSomewhere(page, link))).toEqual([]);
  });

  it('catches a file and a heading that are not there', () => {
    expect(leadsSomewhere('models/README.md', 'nowhere.ts')).toBe(false);
    expect(leadsSomewhere('models/README.md', 'METHOD.md#nowhere')).toBe(false);
    expect(leadsSomewhere('models/README.md', '#nowhere')).toBe(false);
    expect(leadsSomewhere('models/README.md', 'METHOD.md#boundaries')).toBe(true);
  });
});

/** Addresses outside of the house are not looked up. */
function leadsSomewhere(page: string, link: string): boolean {
  if (/^[a-z]+:/.test(link)) return true;
  const [file = '', fragment] = link.split('#');
  const path = file === '' ? page : posix.join(posix.dirname(page), file);
  if (!existsSync(join(ROOT, path))) return false;
  return fragment === undefined || headingsOf(read(path)).map(fragmentOf).includes(fragment);
}

/** The table's rows of the constants, with paths from the root. */
const told: Constant[] = tableRows(read(METHOD), 'constant').map(
  ([name = '', file = '', value = '']) => ({
    name: unquoted(name),
    file: posix.join('models', /\(([^)]+)\)/.exec(file)?.[1] ?? ''),
    value: unquoted(value),
  }),
);

function unquoted(cell: string): string {
  return cell.replace(/^`|`$/g, '');
}

describe('constants of METHOD.md', () => {
  const everywhere = sources
    .filter((path) => /^(shared|models|src)\//.test(path))
    .flatMap((path) => constantsOf(path, read(path)));

  it.each(told.map((c): [string, Constant] => [`${c.name} of ${c.file}`, c]))(
    '%s',
    (_, constant) => {
      const named = everywhere.filter((c) => c.name === constant.name);
      // the whole list, so that a constant that moved shows where it is now
      expect(named).toContainEqual(constant);
    },
  );

  it('each with a reason', () => {
    for (const row of tableRows(read(METHOD), 'constant')) expect(row[3]).toMatch(/\w{2,}.*\w{2,}/);
  });

  it('all thresholds of the models and of the steps are among them', () => {
    const key = ({ name, file }: Constant): string => `${name} of ${file}`;
    const listed = new Set(told.map(key));
    const missing = everywhere
      .filter((c) => /^(models|src\/(place|cut|lake|estimate|check))\//.test(c.file))
      .filter((c) => !NO_THRESHOLD.has(c.name) && !listed.has(key(c)));
    expect(missing).toEqual([]);
  });

  it.each(tableRows(read(METHOD), 'choice'))('default %s is %s', (path, value) => {
    let at: unknown = DEFAULT_ANALYSIS;
    for (const step of unquoted(path ?? '').split('.'))
      at = typeof at === 'object' && at !== null ? Reflect.get(at, step) : undefined;
    expect(String(at)).toBe(unquoted(value ?? ''));
  });
});

/** Numbers that decide nothing: units, coefficients of a series, positions in a list, corners of a cell. */
const NO_THRESHOLD = new Set([
  ...[
    'DEGREE',
    'FEET',
    'HALF_LOG_2PI',
    'STIRLING',
    'ERF_NEAR_0',
    'ERFC',
    'ERFC_FAR',
    'INVERSE_SQRT_PI',
    'BERNOULLI',
    'MASK_64',
    'GOLDEN_64',
    'STREAM_64',
    'STRANGER',
  ],
  ...['SLOT', 'N', 'OUTLINE', 'WITHIN', 'PATCH', 'CENTRE', 'TRIANGLES', 'WEDGES'],
  ...['BY', 'BY_TWO', 'EFFECT_BY', 'COUNT_VARIABLES', 'LOG_PI_VARIABLES'],
  ...['CORNER_X', 'CORNER_Y', 'NODE_X', 'NODE_Y'],
]);

describe('the reader of constants', () => {
  it('takes numbers, lists and records of numbers', () => {
    const source = [
      'const A = -12;',
      'export const B = 200_000;',
      'const C: readonly number[] = [\n  0.5,\n  1,\n];',
      'export const D = { from: 2015, to: 2030 } as const;',
      'const E = Math.log(12.7);',
      "const F = 'text';",
      'const G = named(3);',
      'const lower = 3;',
      '  const INNER = 3;',
    ].join('\n');
    expect(constantsOf('x.ts', source).map(({ name, value }) => [name, value])).toEqual([
      ['A', '-12'],
      ['B', '200_000'],
      ['C', '[0.5, 1]'],
      ['D', '{ from: 2015, to: 2030 }'],
      ['E', 'Math.log(12.7)'],
    ]);
  });
});
