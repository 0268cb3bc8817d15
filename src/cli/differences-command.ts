/** The command line of `differences`. */

import type { Command } from 'commander';
import { examples } from './command-help.ts';
import { UsageError } from './core.ts';
import type { DifferencesAsked } from './differences.ts';
import { csvFileName, surveyFolders } from './options.ts';

export function addDifferences(
  program: Command,
  run: (asked: DifferencesAsked) => Promise<void>,
): void {
  program
    .command('differences')
    .summary('two copies of one survey, cell by cell')
    .usage('DIR1 DIR2 [--out differences.csv]')
    .description(
      'Lists where two copies of one survey differ: the same sheets typed in twice, or a survey that two people changed. Rows are put beside each other by their keys, in whatever order they stand. Where history.csv of both leads back to the same tables, each line says which copy alone changed it. The folders are left as they are; the page takes one value or the other. Exit code 0 when they say the same, 2 when they differ.',
    )
    .argument('<DIR...>', 'two survey folders', surveyFolders)
    .option('--out <FILE>', 'the list as a table', csvFileName('--out', 'differences.csv'))
    .addHelpText(
      'after',
      examples(
        'differences my-lake my-lake-typed-again',
        'differences my-lake my-lake-from-ben --out differences.csv',
      ),
    )
    .action((folders: string[], { out }: { out?: string }) => {
      const [here, there, ...more] = folders;
      if (here === undefined || there === undefined || more.length > 0)
        throw new UsageError(
          `differences: got ${folders.length} survey folders, two are expected (see shoalwise differences --help)`,
        );
      return run({ folders: [here, there], out: out ?? null });
    });
}
