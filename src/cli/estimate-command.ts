/** The command line of `estimate`. */

import type { Command } from 'commander';
import { term, terms } from '../../shared/glossary.ts';
import { LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { examples, listAll, ON_FINDINGS, threads } from './command-help.ts';
import { UsageError } from './core.ts';
import type { EstimateAsked } from './estimate.ts';
import { addPartsOptions, partsAsked, type TypedParts } from './in-parts.ts';
import { language, resultFolderName, surveyFolders, variantName, wholeNumber } from './options.ts';

export function addEstimate(program: Command, run: (asked: EstimateAsked) => Promise<void>): void {
  interface Typed extends TypedParts {
    json?: boolean;
    listAll?: boolean;
    out?: string;
    bootstrap?: number;
    reselect?: boolean;
    keepAs?: string;
    language?: Language;
    threads?: number;
  }
  const command = program
    .command('estimate')
    .summary('estimate density and abundance, write the results')
    .usage('DIR… --out OUT [options]')
    .description(
      `Estimates each survey, prints a summary and writes the results: report.html and report-short.html, tables, maps and estimate.json. Written whole or not at all. ${ON_FINDINGS}`,
    )
    .argument('<DIR...>', 'survey folders', surveyFolders)
    .option(
      '--out <OUT>',
      'folder for the results, OUT/NAME for each of several surveys; replaced if it is empty or holds an earlier result, else left alone',
      resultFolderName('--out'),
    )
    .option(
      '--json',
      'print estimate.json alone on standard output, no summary; --out may then be left out',
    )
    .option(
      '--bootstrap <B>',
      `an interval also from B ${terms('bootstrapReplicate')} (default: bootstrap.replicates of analysis.json, 0 without it)`,
      wholeNumber('--bootstrap', 0),
    )
    .option('--reselect', `choose the model anew in each ${term('bootstrapReplicate')}`)
    .option(
      '--keep-as <NAME>',
      `keep the choices of the analysis and what they gave as a ${term('variant')} of this name, in DIR/variants.json`,
      variantName('--keep-as'),
    )
    .option(
      '--language <LANGUAGE>',
      `of report-short.html and of the first page of report.html: ${Object.keys(LANGUAGES).join(', ')}`,
      language('--language'),
    )
    .addOption(threads())
    .addOption(listAll());
  addPartsOptions(command)
    .addHelpText(
      'after',
      examples(
        'estimate my-lake --out results',
        'estimate lakes/* --out results --bootstrap 500 --threads 4',
      ),
    )
    .action((folders: string[], typed: Typed) => {
      const { json = false, listAll = false, reselect = false } = typed;
      const out = typed.out ?? null;
      if (out === null && !json)
        throw new UsageError(
          'estimate: --out OUT, the folder for the results, or --json is expected',
        );
      const replicates = typed.bootstrap ?? null;
      return run({
        folders,
        json,
        listAll,
        out,
        replicates,
        reselect,
        keepAs: typed.keepAs ?? null,
        language: typed.language ?? 'en',
        threads: typed.threads ?? null,
        parts: partsAsked('estimate', typed, folders.length),
      });
    });
}
