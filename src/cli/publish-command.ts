/** The command line of `publish`. */

import { type Command, Option } from 'commander';
import { COARSE_M } from '../../shared/public-map.ts';
import { isLanguage, LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { listed, quoted } from '../../shared/words.ts';
import { examples, listAll, ON_FINDINGS } from './command-help.ts';
import { UsageError } from './core.ts';
import {
  amount,
  dayOrWords,
  htmlFileName,
  resultFolderName,
  someText,
  surveyFolder,
} from './options.ts';
import type { PublishAsked } from './publish.ts';

export function addPublish(program: Command, run: (asked: PublishAsked) => Promise<void>): void {
  interface Typed {
    out?: string;
    posters?: string;
    pictures?: string;
    title?: string;
    contact?: string;
    nextUpdate?: string;
    coarsen?: number;
    language?: Language;
    listAll?: boolean;
  }
  program
    .command('publish')
    .summary('a map for the public in one file, posters, pictures for posts')
    .usage('DIR --out map.html [options]')
    .description(
      `Estimates the survey and writes a map for the public: one file that opens from disk and asks nothing of any network, in ${listed(Object.values(LANGUAGES), 'and')}, with the number as a range, what was searched, and what people can do. ${ON_FINDINGS}`,
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .option('--out <FILE>', 'the map, an HTML file', htmlFileName('--out', 'map.html'))
    .option(
      '--posters <OUTDIR>',
      'posters to print, A3 and 11 × 17 inches, upright and across, in this folder',
      resultFolderName('--posters'),
    )
    .option(
      '--pictures <OUTDIR>',
      'pictures for posts, square and wide (SVG; the map application saves PNG), in this folder',
      resultFolderName('--pictures'),
    )
    .option(
      '--title <TEXT>',
      'heading of the map (default: the name of the lake)',
      someText('--title'),
    )
    .option(
      '--contact <TEXT>',
      'who to ask: a name, a telephone number, an address',
      someText('--contact'),
    )
    .option(
      '--next-update <TEXT>',
      'when the next one comes: YYYY-MM-DD, or words',
      dayOrWords('--next-update'),
    )
    .option(
      '--coarsen <METRES>',
      `show places as squares of this side, ${COARSE_M.least} to ${COARSE_M.most}: the exact ones are then not in the file`,
      coarse,
    )
    .addOption(
      new Option(
        '--language <CODE>',
        `${listed(Object.keys(LANGUAGES))} alone (default: all, the reader's own is shown)`,
      ).argParser(language),
    )
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'publish my-lake --out map.html --contact "Lake office, 555 0100"',
        'publish my-lake --out map.html --coarsen 100 --language es',
        'publish my-lake --posters posters --pictures pictures',
      ),
    )
    .action((folder: string, typed: Typed) => {
      const [out, posters, pictures] = [typed.out, typed.posters, typed.pictures];
      if (out === undefined && posters === undefined && pictures === undefined)
        throw new UsageError(
          'publish: --out FILE, --posters OUTDIR or --pictures OUTDIR is expected (see shoalwise publish --help)',
        );
      return run({
        folder,
        out: out ?? null,
        posters: posters ?? null,
        pictures: pictures ?? null,
        wishes: {
          title: typed.title ?? null,
          contact: typed.contact ?? null,
          nextUpdate: typed.nextUpdate ?? null,
        },
        coarseM: typed.coarsen ?? null,
        language: typed.language ?? null,
        listAll: typed.listAll ?? false,
      });
    });
}

function coarse(typed: string, earlier: number | undefined): number {
  const sideM = amount('--coarsen', 'm', COARSE_M.most)(typed, earlier);
  if (sideM < COARSE_M.least)
    throw new UsageError(
      `--coarsen: ${quoted(typed)} is not a number from ${COARSE_M.least} to ${COARSE_M.most} (m)`,
    );
  return sideM;
}

function language(typed: string): Language {
  if (!isLanguage(typed))
    throw new UsageError(
      `--language: ${quoted(typed)} is none of ${listed(Object.keys(LANGUAGES))}`,
    );
  return typed;
}
