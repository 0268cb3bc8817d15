/** The commands with their arguments, options and help. How a command does its work stands in its own file. */

import { Command, type CommanderError } from 'commander';
import packageJson from '../../package.json' with { type: 'json' };
import { USUAL_AREA } from '../../shared/areas.ts';
import { term, terms } from '../../shared/glossary.ts';
import { M2_PER_HA } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import type { AreasAsked } from './areas.ts';
import type { BatchCommand } from './batch.ts';
import { addBatch } from './batch-command.ts';
import type { CheckAsked } from './check.ts';
import { EXIT_CODES, examples, listAll, ON_FINDINGS } from './command-help.ts';
import type { CompareCommand } from './compare.ts';
import { addCompare } from './compare-command.ts';
import { type Terminal, UsageError } from './core.ts';
import type { DifferencesAsked } from './differences.ts';
import { addDifferences } from './differences-command.ts';
import type { EstimateAsked } from './estimate.ts';
import { addEstimate } from './estimate-command.ts';
import type { ExportAsked } from './export.ts';
import type { ImportCommand } from './import.ts';
import { addImport } from './import-command.ts';
import {
  amount,
  licenseName,
  MOST_PORT,
  oneLine,
  oneMoreName,
  resultFolderName,
  someText,
  surveyFolder,
  surveyFolders,
  USUAL_PORT,
  wholeNumber,
} from './options.ts';
import type { PlanAsked } from './plan.ts';
import { addPlan } from './plan-command.ts';
import type { PublishAsked } from './publish.ts';
import { addPublish } from './publish-command.ts';
import type { RehearseAsked } from './rehearse.ts';
import { addRehearse } from './rehearse-command.ts';
import type { ServeAsked } from './serve.ts';
import type { SheetsCommand } from './sheets.ts';
import { addSheets } from './sheets-command.ts';
import { WIDTH } from './text.ts';

/** What is done when a command was understood. */
export interface Commands {
  importFiles(asked: ImportCommand): Promise<void>;
  check(asked: CheckAsked): Promise<void>;
  estimate(asked: EstimateAsked): Promise<void>;
  rehearse(asked: RehearseAsked): Promise<void>;
  areas(asked: AreasAsked): Promise<void>;
  compare(asked: CompareCommand): Promise<void>;
  plan(asked: PlanAsked): Promise<void>;
  batch(asked: BatchCommand): Promise<void>;
  publish(asked: PublishAsked): Promise<void>;
  exportFiles(asked: ExportAsked): Promise<void>;
  sheets(asked: SheetsCommand): Promise<void>;
  differences(asked: DifferencesAsked): Promise<void>;
  serve(asked: ServeAsked): Promise<void>;
}

/**
 * Understands a command line and runs its command; help and version go to standard output.
 * Throws UsageError with one sentence on what is wrong, before anything is read.
 * @param argv what was typed after the program's name
 */
export async function runCommandLine(
  argv: readonly string[],
  commands: Commands,
  terminal: Pick<Terminal, 'out'>,
): Promise<void> {
  const program = newProgram(terminal);
  addImport(program, commands.importFiles);
  addCheck(program, commands.check);
  addEstimate(program, commands.estimate);
  addRehearse(program, commands.rehearse);
  addAreas(program, commands.areas);
  addCompare(program, commands.compare);
  addPlan(program, commands.plan);
  addBatch(program, commands.batch);
  addPublish(program, commands.publish);
  addExport(program, commands.exportFiles);
  addSheets(program, commands.sheets);
  addDifferences(program, commands.differences);
  addServe(program, commands.serve);
  for (const command of [program, ...program.commands])
    command.exitOverride((error) => {
      throw ended(error, command);
    });
  try {
    await program.parseAsync(argv, { from: 'user' });
  } catch (error) {
    if (!(error instanceof Helped)) throw error;
  }
}

/** Help or version was asked for and given. */
class Helped extends Error {}

/** What the library says ends a command line: help that was given, or one sentence on what is wrong. */
function ended({ code, message, exitCode }: CommanderError, command: Command): Error {
  if (exitCode === 0) return new Helped(message);
  const { parent, commands, options } = command;
  const names = commands.map((c) => c.name());
  if (code === 'commander.help') return new UsageError(`a command is expected: ${listed(names)}`);
  const sentence = message.replace(/^error: /, '').replace(/\s*\n\s*/g, ' ');
  const long = options.flatMap((option) => option.long ?? []);
  const expected: Record<string, string> = {
    'commander.unknownCommand': `; ${listed(names)} is expected`,
    'commander.unknownOption': `; ${listed([...long, '--help'])} is expected`,
  };
  const see = parent === null ? '' : ` (see shoalwise ${command.name()} --help)`;
  const who = parent === null ? '' : `${command.name()}: `;
  return new UsageError(`${who}${sentence}${expected[code] ?? ''}${see}`);
}

function newProgram(terminal: Pick<Terminal, 'out'>): Command {
  return new Command('shoalwise')
    .description('From the field sheets of a mussel survey to a lake-wide number.')
    .usage('COMMAND …')
    .version(packageJson.version, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [COMMAND]', 'print the help of a command')
    .configureHelp({
      helpWidth: WIDTH,
      subcommandTerm: (command) => command.name(),
      optionTerm: ({ flags }) => flags.replace(/[<>]/g, ''),
      argumentTerm: (argument) => `${argument.name()}${argument.variadic ? '…' : ''}`,
    })
    .configureOutput({
      writeOut: (written) => terminal.out(written),
      writeErr: () => {}, // told as one sentence by whoever called
      getOutHasColors: () => false,
    })
    .addHelpText(
      'after',
      `\nshoalwise COMMAND --help shows its options and examples.\n${EXIT_CODES}`,
    );
}

function addCheck(program: Command, run: Commands['check']): void {
  program
    .command('check')
    .summary('read survey folders and say what must be fixed')
    .usage('DIR… [--json] [--list-all]')
    .description(
      `Reads survey folders and checks them up to the estimate, which is not made. Writes no files. ${ON_FINDINGS}`,
    )
    .argument('<DIR...>', 'survey folders', surveyFolders)
    .option('--json', 'print all of them, with the repairs proposed, as JSON on standard output')
    .addOption(listAll())
    .addHelpText('after', examples('check my-lake', 'check lakes/* --list-all 2> to-fix.txt'))
    .action((folders: string[], { json = false, listAll = false }: Partial<CheckAsked>) =>
      run({ folders, json, listAll }),
    );
}

const MOST = { hectares: 1e6, m3: 1e12, depthM: 2000, m: 10_000 };

function addAreas(program: Command, run: Commands['areas']): void {
  interface Typed {
    out: string;
    hectares?: number;
    volumeM3?: number;
    layer?: number;
    leastArea?: number;
    leastWidth?: number;
    margin?: number;
    parts?: number;
    exclude?: string;
    listAll?: boolean;
  }
  program
    .command('areas')
    .summary(`numbers of ${terms('treatmentArea')}, and areas proposed for a budget`)
    .usage('DIR (--hectares X | --volume-m3 V) --out OUT [options]')
    .description(
      `Measures the ${terms('treatmentArea')} of DIR/treatments.geojson and proposes connected areas that hold most mussels for a budget of water. A planning aid, not a prescription. Writes areas.json, areas.geojson, areas.gpx, areas.kml and areas.html (a sheet an area, to print), whole or not at all. ${ON_FINDINGS}`,
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .option(
      '--hectares <X>',
      'the budget in hectares of water',
      amount('--hectares', 'ha', MOST.hectares),
    )
    .option(
      '--volume-m3 <V>',
      'the budget in cubic metres of water',
      amount('--volume-m3', 'm³', MOST.m3),
    )
    .requiredOption(
      '--out <OUT>',
      'folder for the files; replaced if it is empty or holds earlier ones, else left alone',
      resultFolderName('--out'),
    )
    .option(
      '--layer <M>',
      'volume of a layer so thick, at the surface or over the bed (default: the whole column)',
      amount('--layer', 'm', MOST.depthM),
    )
    .option(
      '--least-area <M2>',
      `the least that can be treated as one area, m² (default: ${USUAL_AREA.leastM2})`,
      amount('--least-area', 'm²', MOST.hectares),
    )
    .option(
      '--least-width <M>',
      `no area is narrower, m (default: ${USUAL_AREA.widthM})`,
      amount('--least-width', 'm', MOST.m),
    )
    .option(
      '--margin <M>',
      `how far an area reaches beyond each ${term('detection')} in it, m (default: 0)`,
      amount('--margin', 'm', MOST.m, true),
    )
    .option(
      '--parts <N>',
      `separate areas that the budget may be divided into (default: ${USUAL_AREA.parts})`,
      wholeNumber('--parts', 1, 10),
    )
    .option(
      '--exclude <FILE>',
      'GeoJSON polygons of places that must not be chosen: intakes, beaches, native mussel beds (default: keep-out.geojson of DIR, where there is one)',
      someText('--exclude'),
    )
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'areas my-lake --hectares 2 --out areas',
        'areas my-lake --volume-m3 50000 --layer 2 --out areas',
      ),
    )
    .action((folder: string, typed: Typed) => {
      const { out, hectares, volumeM3, listAll = false } = typed;
      if ((hectares === undefined) === (volumeM3 === undefined))
        throw new UsageError(
          'areas: one budget is expected, --hectares X or --volume-m3 V (see shoalwise areas --help)',
        );
      return run({
        folder,
        out,
        listAll,
        exclude: typed.exclude ?? null,
        request: {
          budget_m2: hectares === undefined ? null : hectares * M2_PER_HA,
          budget_m3: volumeM3 ?? null,
          layer_m: typed.layer ?? null,
          least_area_m2: typed.leastArea ?? USUAL_AREA.leastM2,
          least_width_m: typed.leastWidth ?? USUAL_AREA.widthM,
          margin_m: typed.margin ?? 0,
          most_parts: typed.parts ?? USUAL_AREA.parts,
        },
      });
    });
}

function addExport(program: Command, run: Commands['exportFiles']): void {
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

function addServe(program: Command, run: Commands['serve']): void {
  interface Typed {
    listAll?: boolean;
    open?: boolean;
    port?: number;
    basemap?: string;
    /** false with --no-estimate */
    estimate: boolean;
  }
  program
    .command('serve')
    .summary('estimate, then show the survey on a map in the browser')
    .usage('DIR [options]')
    .description(
      'Prints the estimate, then serves a map page with the survey in it to this machine alone, until Ctrl-C. Errors in the data do not keep it from starting: the page shows them in their cells.',
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .option('--open', "show the page in the system's browser")
    .option(
      '--port <P>',
      `port to serve at (default: ${USUAL_PORT}, or a free one when it is taken)`,
      wholeNumber('--port', 0, MOST_PORT),
    )
    .option(
      '--basemap <URL>',
      'let the page fetch map tiles from this address alone: …/{z}/{x}/{y}.png, or a .pmtiles file (default: no base map)',
      someText('--basemap'),
    )
    .option('--no-estimate', 'the page alone, nothing printed before')
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'serve my-lake --open',
        'serve my-lake --basemap https://tiles.example/{z}/{x}/{y}.png',
      ),
    )
    .action((folder: string, typed: Typed) => {
      const { listAll = false, open = false, estimate } = typed;
      const [port, basemap] = [typed.port ?? null, typed.basemap ?? null];
      return run({ folder, listAll, open, port, basemap, estimate });
    });
}
