/** The command line of `compare`. */

import type { Command } from 'commander';
import { examples, listAll, ON_FINDINGS, threads } from './command-help.ts';
import type { CompareCommand } from './compare.ts';
import { UsageError } from './core.ts';
import { oneMoreName, resultFolderName, someText, surveyFolders } from './options.ts';

export function addCompare(program: Command, run: (asked: CompareCommand) => Promise<void>): void {
  interface Typed {
    out: string;
    answers?: string;
    accept?: string[];
    yes?: boolean;
    writeAnswers?: string;
    treated?: string;
    listAll?: boolean;
    threads?: number;
  }
  program
    .command('compare')
    .summary('what changed between surveys of one lake')
    .usage('DIR1 DIR2 … --out OUT [options]')
    .description(
      `Estimates each survey and holds it against the next one on their common ground: how many times as many mussels, with an interval, by substrate, depth and area, and what change could have been seen. Who among the observers is the same person, and which classes mean the same, is asked. ${ON_FINDINGS}`,
    )
    .argument('<DIR...>', 'survey folders of one lake, in any order', surveyFolders)
    .requiredOption('--out <OUT>', 'folder for the results', resultFolderName('--out'))
    .option(
      '--treated <FILE>',
      'GeoJSON polygons that were treated between the surveys: held against the rest',
      someText('--treated'),
    )
    .option('--answers <FILE>', 'answers: a list that was filled in', someText('--answers'))
    .option(
      '--accept <ID>',
      'take what is proposed for this question; once for each',
      oneMoreName('--accept'),
    )
    .option('--yes', 'take every proposal that is marked certain')
    .option(
      '--write-answers <FILE>',
      'write all questions as JSON, to be filled in for --answers',
      someText('--write-answers'),
    )
    .addOption(threads())
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'compare my-lake-2025 my-lake-2026 --out change --write-answers who',
        'compare my-lake-2025 my-lake-2026 --out change --answers who',
      ),
    )
    .action((folders: string[], typed: Typed) => {
      if (folders.length < 2)
        throw new UsageError('compare: two survey folders or more are expected');
      return run({
        folders,
        out: typed.out,
        answersFile: typed.answers ?? null,
        accepted: typed.accept ?? [],
        acceptCertain: typed.yes ?? false,
        writeAnswers: typed.writeAnswers ?? null,
        treated: typed.treated ?? null,
        listAll: typed.listAll ?? false,
        threads: typed.threads ?? null,
      });
    });
}
