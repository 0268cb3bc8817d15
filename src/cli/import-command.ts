/** The command line of `import`. */

import type { Command } from 'commander';
import { quoted } from '../../shared/words.ts';
import { examples, listAll } from './command-help.ts';
import { UsageError } from './core.ts';
import type { ImportCommand } from './import.ts';
import { oneMoreName, resultFolderName, someText } from './options.ts';

export function addImport(program: Command, run: (asked: ImportCommand) => Promise<void>): void {
  interface Typed {
    into: string;
    answers?: string;
    answer?: [string, string][];
    accept?: string[];
    yes?: boolean;
    writeAnswers?: string;
    listAll?: boolean;
  }
  program
    .command('import')
    .summary('make a survey folder of sheets, maps and GPS files')
    .usage('FILES… --into DIR [options]')
    .description(
      'Reads spreadsheets (CSV, XLSX), maps (shapefile, GeoPackage, GeoJSON, KML, GeoTIFF) and GPX as they are, and asks what could be read in two ways: columns, units, coordinate systems, codes. Open questions are listed with their evidence, and nothing is written; once all are answered, DIR is written whole with import.json, by which the next files come in without a question.',
    )
    .argument('<FILES...>', 'files, zips and folders', oneFile)
    .requiredOption(
      '--into <DIR>',
      'folder for the survey: new, empty, or an earlier import that nobody has worked on since',
      resultFolderName('--into'),
    )
    .option(
      '--answers <FILE>',
      'answers: import.json of an earlier import, or a list that was filled in',
      someText('--answers'),
    )
    .option('--answer <ID=VALUE>', 'the answer to one question; once for each', oneMoreAnswer)
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
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'import my-lake.xlsx lake.zip soundings.csv --into my-lake',
        'import files-2027 --into my-lake-2027 --answers my-lake/import.json',
      ),
    )
    .action((files: string[], typed: Typed) =>
      run({
        files,
        into: typed.into,
        answersFile: typed.answers ?? null,
        answers: typed.answer ?? [],
        accepted: typed.accept ?? [],
        acceptCertain: typed.yes ?? false,
        writeAnswers: typed.writeAnswers ?? null,
        listAll: typed.listAll ?? false,
      }),
    );
}

function oneFile(text: string, earlier: string[] = []): string[] {
  if (text === '') throw new UsageError('import: the name of a file is empty');
  return [...earlier, text];
}

function oneMoreAnswer(text: string, earlier: [string, string][] = []): [string, string][] {
  const at = text.indexOf('=');
  if (at < 1 || at === text.length - 1)
    throw new UsageError(`--answer: ${quoted(text)} is no ID=VALUE, as in depth.unit=ft`);
  const id = text.slice(0, at);
  if (earlier.some(([other]) => other === id))
    throw new UsageError(`--answer: ${quoted(id)} is answered twice`);
  return [...earlier, [id, text.slice(at + 1)]];
}
