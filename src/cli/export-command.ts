/** The command line of `export`. */

import type { Command } from 'commander';
import { terms } from '../../shared/glossary.ts';
import { examples, listAll, ON_FINDINGS } from './command-help.ts';
import type { ExportAsked } from './export.ts';
import { licenseName, oneLine, oneMoreName, resultFolderName, surveyFolder } from './options.ts';

export function addExport(program: Command, run: (asked: ExportAsked) => Promise<void>): void {
  interface Typed {
    out: string;
    author?: string[];
    taxon?: string;
    license?: string;
    listAll?: boolean;
  }
  program
    .command('export')
    .summary('the survey and its results as open files')
    .usage('DIR --out OUT [options]')
    .description(
      `Estimates the survey and writes it in formats that others read: survey.gpkg (layers for a GIS), grid.tif (cloud-optimised GeoTIFF), darwin-core.zip (what was searched and counted), datapackage.json with the survey's own files, citation.cff. Written whole or not at all. ${ON_FINDINGS}`,
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .requiredOption(
      '--out <OUT>',
      'folder for the files; replaced if it is empty or holds earlier ones, else left alone',
      resultFolderName('--out'),
    )
    .option(
      '--author <NAME>',
      'who made the survey, "Family, Given" or an organisation; once for each',
      oneMoreName('--author'),
    )
    .option(
      '--taxon <NAME>',
      `scientific name of the ${terms('mussel')} that were looked for (default: Bivalvia)`,
      oneLine('--taxon'),
    )
    .option(
      '--license <NAME>',
      'the licence that the data are given under, as SPDX writes it: CC-BY-4.0',
      licenseName('--license'),
    )
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'export my-lake --out open',
        'export my-lake --out open --author "Rivera, Ana" --license CC-BY-4.0',
      ),
    )
    .action((folder: string, typed: Typed) => {
      const { out, author = [], taxon = null, license = null, listAll = false } = typed;
      return run({ folder, out, listAll, credits: { authors: author, taxon, license } });
    });
}
