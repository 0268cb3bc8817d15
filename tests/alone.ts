/**
 * Folders and files of tests that have a process each, for they put something in place of a module or a global, or keep
 * browsers, servers and other processes. All other tests share processes. These begin first: the longest are among them,
 * also where they would not need a process of their own.
 */
export const ALONE = [
  'tests/browser/',
  'tests/cli/batch.test.ts',
  'tests/cli/command-line.test.ts',
  'tests/cli/commands.test.ts',
  'tests/cli/interrupt.test.ts',
  'tests/cli/killed.test.ts',
  'tests/cli/launch.test.ts',
  'tests/cli/serve.test.ts',
  'tests/cli/threads.test.ts',
  'tests/cli/whole.test.ts',
  'tests/cluster/',
  'tests/fuzz/',
  'tests/truth/',
  'tests/app/kept-threshold.test.ts',
  'tests/app/storage.test.ts',
  'tests/models/fit/choice-unconverged.test.ts',
  'tests/models/fuzz.test.ts',
];
