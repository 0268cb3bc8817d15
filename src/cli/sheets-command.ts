/** The command line of `sheets`. */

import { type Command, Option } from 'commander';
import type { Roles } from '../../shared/field-sheets.ts';
import { terms } from '../../shared/glossary.ts';
import { LONGEST_LABEL } from '../../shared/tables.ts';
import { quoted } from '../../shared/words.ts';
import type { Paper } from '../publish/field-sheets.ts';
import { examples } from './command-help.ts';
import { UsageError } from './core.ts';
import { htmlFileName, someText, surveyFolder, wholeNumber } from './options.ts';
import type { SheetsCommand } from './sheets.ts';

const MOST = { blank: 200, pages: 20 };

export function addSheets(program: Command, run: (asked: SheetsCommand) => Promise<void>): void {
  interface Typed {
    out: string;
    paper: Paper;
    observers?: Roles;
    blank?: number;
    detectionPages?: number;
  }
  program
    .command('sheets')
    .summary('sheets to print for the dives')
    .usage('DIR --out sheets.html [options]')
    .description(
      `Writes sheets for waterproof paper: a page for transect and habitat, one or more for the clusters, and a key for those who type them in. Rows of DIR/transects.csv without a date are planned ${terms('transect')}: what they hold is filled in, and the roles are exchanged from one to the next. Nothing here sets a dive limit: the dive plan, the dive safety officer and local rules come first.`,
    )
    .argument('<DIR>', 'survey folder; any of its files may be missing', surveyFolder)
    .requiredOption(
      '--out <FILE>',
      'the sheets, an HTML file',
      htmlFileName('--out', 'sheets.html'),
    )
    .addOption(new Option('--paper <SIZE>', 'a4 or letter').choices(['a4', 'letter']).default('a4'))
    .option(
      '--observers <NAMES>',
      'two names, the first one primary on the first sheet: "Ann, Ben"',
      observers,
    )
    .option(
      '--blank <N>',
      'blank sheets besides (default: one where nothing is planned)',
      wholeNumber('--blank', 0, MOST.blank),
    )
    .option(
      '--detection-pages <N>',
      'pages of clusters for each of them (default: 1)',
      wholeNumber('--detection-pages', 1, MOST.pages),
    )
    .addHelpText(
      'after',
      examples(
        'sheets my-lake --out sheets.html --observers "Ann, Ben"',
        'sheets . --out sheets.html --blank 10 --paper letter',
      ),
    )
    .action((folder: string, typed: Typed) =>
      run({
        folder,
        out: typed.out,
        paper: typed.paper,
        sheets: {
          observers: typed.observers ?? null,
          blank: typed.blank ?? null,
          detectionPages: typed.detectionPages ?? 1,
        },
      }),
    );
}

function observers(typed: string, earlier: Roles | undefined): Roles {
  const text = someText('--observers')(typed, earlier === undefined ? undefined : typed);
  const [primary = '', secondary = '', ...more] = text.split(',').map((name) => name.trim());
  const longest = Math.max(primary.length, secondary.length);
  if (
    primary === '' ||
    secondary === '' ||
    primary === secondary ||
    more.length > 0 ||
    longest > LONGEST_LABEL
  )
    throw new UsageError(`--observers: got ${quoted(text)}, two names are expected: "Ann, Ben"`);
  return { primary, secondary };
}
