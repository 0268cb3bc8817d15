/**
 * The second half of the one rule: src/present reads results, and src/publish, src/cli, src/app and src/viewer draw what it says.
 * They compute nothing and read no result themselves; inside of the application imports go from the rooms that know
 * nothing of the others to those that join them.
 */

import { posix } from 'node:path';
import { importsOf } from './rule.ts';

/** Files for machines and those that pass a result on whole: they may name its type. */
const PASS_ON = [
  'src/publish/index.ts',
  'src/publish/tables.ts',
  'src/publish/geojson.ts',
  'src/publish/open/',
  'src/publish/raster/bands.ts',
  'src/cli/estimate.ts',
  'src/app/view-contract.ts',
  'src/app/core-contract.ts',
  'src/app/study-contract.ts',
  'src/app/state/',
  'src/app/worker/',
];
/** Where work of the models is run: threads of the command line, the page's worker. */
const RUN = [
  'src/cli/pool.ts',
  'src/cli/parts.ts',
  'src/cli/in-parts.ts',
  'src/cli/worker.ts',
  'src/app/worker/',
];
const RESULTS = ['shared/estimate.ts', 'shared/result.ts'];

/** Rooms of src/app from the ground up: a room imports from those on lower floors, not from its own floor's others. */
const FLOORS: string[][] = [
  ['area-contract.ts', 'study-contract.ts', 'import-contract.ts', 'plan-contract.ts'],
  ['change-contract.ts', 'view-contract.ts'],
  ['core-contract.ts'],
  ['contract.ts'],
  ['look', 'storage'],
  ['state'],
  ['shell', 'worker'],
  ['map', 'plots'],
  ['stations'],
  ['App.tsx'],
  ['main.tsx'],
];

/** What a file does against the rule, one sentence each; nothing for files that show nothing. */
export function showingViolations(path: string, source: string): string[] {
  if (!/^src\/(?:publish|cli|app|viewer)\//.test(path)) return [];
  const targets = importsOf(source)
    .filter((target) => target.startsWith('.'))
    .map((target) => posix.normalize(posix.join(posix.dirname(path), target)));
  const wrong = targets.flatMap((target) => importProblem(path, target) ?? []);
  if (!isOneOf(path, PASS_ON))
    for (const [, read] of source.matchAll(READING))
      wrong.push(`${path} reads ${read?.trim()}: src/present reads results`);
  return wrong;
}

/** A field of an estimate or a result that is looked into: `result.estimate.abundance`, `const { checks } = result`. */
const READING =
  /(\bresult!?\??\.(?:estimate|checks|curves|segments|placed|detections|survey|bed|surface)\b|\bconst \{[^}]*\} = (?:state\.)?result\b)/g;

function importProblem(path: string, target: string): string | null {
  const problem = (why: string): string => `${path} imports ${target}: ${why}`;
  if (RESULTS.includes(target) && !isOneOf(path, PASS_ON))
    return problem('src/present reads results, whatever shows one takes its records');
  if (target.startsWith('models/') && !isOneOf(path, RUN))
    return problem('what is shown is computed in models/ and read in src/present');
  const step = /^src\/(read|check|place|cut|lake|estimate)\//.exec(target);
  if (step) return problem('the steps are reached through src/pipeline.ts');
  if (path.startsWith('src/app/') && target.startsWith('src/app/'))
    return floorProblem(path, target);
  return null;
}

function floorProblem(path: string, target: string): string | null {
  const roomOf = (file: string): string => file.split('/')[2] ?? '';
  const floorOf = (room: string): number => FLOORS.findIndex((rooms) => rooms.includes(room));
  const [here, there] = [roomOf(path), roomOf(target)];
  if (here === there || /\.(?:css|png|svg)$/.test(target)) return null;
  if (floorOf(here) < 0) return `${path}: ${here} has no floor in tests/house/showing.ts`;
  return floorOf(there) < floorOf(here)
    ? null
    : `${path} imports ${target}: ${here} does not know ${there}`;
}

function isOneOf(path: string, places: readonly string[]): boolean {
  return places.some((place) => (place.endsWith('/') ? path.startsWith(place) : path === place));
}
