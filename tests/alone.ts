/**
 * Folders and files of tests that have a process each, for they put something in place of a module or a global, or keep
 * browsers, servers and other processes. All other tests share processes.
 */
export const ALONE = [
  'tests/browser/',
  'tests/cli/',
  'tests/fuzz/',
  'tests/app/kept-threshold.test.ts',
  'tests/app/storage.test.ts',
  'tests/models/fit/choice-unconverged.test.ts',
];
