/** The one rule of the house as a function: what a file may import, and which globals it may not touch. */

import { posix } from 'node:path';

/** Packages that the models may use; shared/ uses none. */
const MODEL_PACKAGES = new Set(['ml-matrix', 'fmin', 'fmin/index.js']);

/** Clock, chance, network, screen and process: nothing below the command line and the app may ask them. */
const OUTSIDE_WORLD = [
  'Math.random',
  'Date.now',
  'performance.now',
  'fetch(',
  'XMLHttpRequest',
  'WebSocket',
  'setTimeout(',
  'setInterval(',
  'localStorage',
  'indexedDB',
  'document.',
  'window.',
  'navigator.',
  'process.',
  'console.',
  'Buffer.',
  'crypto.',
  'require(',
];

/** A model does not know dates at all; a step may read the date of a dive, but not today's. */
const CLOCK = { models: ['new Date('], shared: ['new Date('], step: ['new Date()'] };

/** What the models offer; the rest of models/ is their own business. */
const MODELS_OFFER = ['models/index.ts', 'models/further.ts'];

const STEPS = [
  'read',
  'check',
  'place',
  'cut',
  'lake',
  'shore',
  'estimate',
  'treat',
  'plan',
  'import',
  'compare',
  'repair',
];

type Place =
  | { kind: 'shared' | 'models' | 'pipeline' | 'present' | 'publish' | 'edge' | 'elsewhere' }
  | { kind: 'step'; step: string };

/**
 * What a file does against the rule, one sentence each.
 * `path` is from the repository's root; `code` is its text without comments (imports are searched in `source`).
 */
export function violations(path: string, source: string, code: string = source): string[] {
  const here = placeOf(path);
  const wrong: string[] = [];
  for (const target of importsOf(source)) {
    const problem = target.startsWith('.')
      ? relativeProblem(here, path, target)
      : packageProblem(here, target);
    if (problem !== null) wrong.push(`${path} imports ${target}: ${problem}`);
  }
  for (const name of forbiddenNames(here))
    if (mentions(code, name))
      wrong.push(`${path} uses ${name.replace(/[(.]$/, '')}: not below src/cli and src/app`);
  return wrong;
}

/** Everything that a module names in import, export … from and import(…). */
export function importsOf(source: string): string[] {
  const statement = /^\s*(?:import|export)\b(?:[^'"`;]*?\bfrom)?\s*(['"])([^'"]+)\1/gm;
  const dynamic = /\bimport\(\s*(['"`])([^'"`]+)\1/g;
  return [...source.matchAll(statement), ...source.matchAll(dynamic)].map((m) => m[2]);
}

function placeOf(path: string): Place {
  const [top, second] = path.split('/');
  if (top === 'shared' || top === 'models') return { kind: top };
  if (top !== 'src') return { kind: 'elsewhere' };
  if (second === 'pipeline.ts' || second === 'pipeline') return { kind: 'pipeline' };
  if (second === 'present' || second === 'publish') return { kind: second };
  if (second === 'cli' || second === 'app' || second === 'viewer') return { kind: 'edge' };
  return STEPS.includes(second!) ? { kind: 'step', step: second! } : { kind: 'elsewhere' };
}

function relativeProblem(here: Place, path: string, target: string): string | null {
  if (!/\.(ts|tsx|mjs|json|css)$/.test(target))
    return 'a relative import carries its file name with .ts';
  const file = posix.join(posix.dirname(path), target);
  const there = placeOf(file);
  if (path.startsWith('src/') && there.kind === 'models' && !MODELS_OFFER.includes(file))
    return `src/ asks the models through ${MODELS_OFFER.join(' and ')} alone`;
  const allowed = (kinds: Place['kind'][]) => kinds.includes(there.kind);
  switch (here.kind) {
    case 'shared':
      return allowed(['shared']) ? null : 'shared/ imports only itself';
    case 'models':
      return allowed(['models', 'shared']) ? null : 'models/ imports only itself and shared/';
    case 'step':
      if (there.kind === 'step')
        return there.step === here.step ? null : 'steps do not import each other';
      return allowed(['models', 'shared'])
        ? null
        : 'a step imports only itself, models/ and shared/';
    case 'present':
      return allowed(['present', 'models', 'shared'])
        ? null
        : 'src/present imports only itself, models/ and shared/';
    case 'publish':
      return allowed(['publish', 'present', 'models', 'shared'])
        ? null
        : 'src/publish imports only itself, src/present/, models/ and shared/';
    case 'pipeline':
      return allowed(['pipeline', 'step', 'models', 'shared'])
        ? null
        : 'the pipeline joins steps, models/ and shared/';
    case 'edge':
      return null;
    case 'elsewhere':
      return path.startsWith('src/') ? 'this folder of src/ has no place in the rule' : null;
  }
}

function packageProblem(here: Place, target: string): string | null {
  if (here.kind === 'edge' || here.kind === 'elsewhere') return null;
  if (target.startsWith('node:')) return 'node is for src/cli only';
  if (here.kind === 'shared') return 'shared/ uses no package';
  if (here.kind === 'models' && !MODEL_PACKAGES.has(target))
    return 'models/ use only ml-matrix and fmin';
  return null;
}

function forbiddenNames(here: Place): string[] {
  switch (here.kind) {
    case 'shared':
    case 'models':
      return [...OUTSIDE_WORLD, ...CLOCK[here.kind]];
    case 'step':
    case 'present':
    case 'publish':
    case 'pipeline':
      return [...OUTSIDE_WORLD, ...CLOCK.step];
    default:
      return [];
  }
}

/** As a name of its own: `myprocess.x` and `.document.` of a record do not count. */
function mentions(code: string, name: string): boolean {
  const pattern = name.replace(/[.()]/g, '\\$&');
  return new RegExp(`(?<![\\w.$])${pattern}`).test(code);
}
