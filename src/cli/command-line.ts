/** The commands with their arguments, options and help. How a command does its work stands in its own file. */

import { Command, type CommanderError } from 'commander';
import packageJson from '../../package.json' with { type: 'json' };
import { listed } from '../../shared/words.ts';
import type { AreasAsked } from './areas.ts';
import { addAreas } from './areas-command.ts';
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
import { addExport } from './export-command.ts';
import type { ImportCommand } from './import.ts';
import { addImport } from './import-command.ts';
import { surveyFolders } from './options.ts';
import type { PlanAsked } from './plan.ts';
import { addPlan } from './plan-command.ts';
import type { PublishAsked } from './publish.ts';
import { addPublish } from './publish-command.ts';
import type { RehearseAsked } from './rehearse.ts';
import { addRehearse } from './rehearse-command.ts';
import type { ServeAsked } from './serve.ts';
import { addServe } from './serve-command.ts';
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
