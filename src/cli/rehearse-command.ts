/** The command line of `rehearse`. */

import type { Command } from 'commander';
import { gloss, term, terms } from '../../shared/glossary.ts';
import { examples, listAll, threads } from './command-help.ts';
import { addPartsOptions, partsAsked, type TypedParts } from './in-parts.ts';
import { surveyFolders, wholeNumber } from './options.ts';
import type { RehearseAsked } from './rehearse.ts';

export function addRehearse(program: Command, run: (asked: RehearseAsked) => Promise<void>): void {
  interface Typed extends TypedParts {
    json?: boolean;
    listAll?: boolean;
    surveys: number;
    fromTruth?: boolean;
    threads?: number;
  }
  const command = program
    .command('rehearse')
    .summary(`${term('simulationStudy')}: what this design can deliver on this lake`)
    .usage('DIR… --surveys N [options]')
    .description(
      `A ${term('simulationStudy')}: ${gloss('simulationStudy')}. Prints ${term('bias')}, ${term('rmse')} and the ${term('coverage')} of the ${terms('confidenceInterval')}. Writes no files.`,
    )
    .argument('<DIR...>', 'survey folders', surveyFolders)
    .requiredOption(
      '--surveys <N>',
      'how many surveys to simulate, 2 or more',
      wholeNumber('--surveys', 2),
    )
    .option('--from-truth', 'simulate from DIR/truth.json (default: from the fitted model)')
    .option('--json', 'print the figures as JSON')
    .addOption(threads())
    .addOption(listAll());
  addPartsOptions(command)
    .addHelpText('after', examples('rehearse my-lake --surveys 200'))
    .action((folders: string[], typed: Typed) => {
      const { json = false, listAll = false, surveys, fromTruth = false } = typed;
      return run({
        folders,
        json,
        listAll,
        surveys,
        fromTruth,
        threads: typed.threads ?? null,
        parts: partsAsked('rehearse', typed, folders.length),
      });
    });
}
