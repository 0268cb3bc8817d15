/** The command line as typed → what is asked for. */

import { parseArgs } from 'node:util';
import { UsageError } from './core.ts';

export type Asked =
  | { command: 'help' | 'version' }
  | { command: 'check'; folders: string[]; json: boolean }
  | { command: 'estimate'; folders: string[]; json: boolean; out: string | null };

export const HELP = `shoalwise: from the field sheets of a mussel survey to a lake-wide number

  shoalwise check DIR…                 read and judge survey folders
  shoalwise estimate DIR… --out OUT    estimate, and write the results to OUT
                                       (to OUT/NAME for each of several folders)

  --json       check: the findings as JSON; estimate: estimate.json alone, on
               standard output (--out may then be left out)
  --help       this text
  --version    the version

Errors and notices go to standard error, one a line. Exit codes: 0 done,
2 errors in the data, 64 wrong command line, 1 a fault of the program
(SHOALWISE_DEBUG=1 shows where).
`;

/** Throws UsageError with one sentence on what is wrong. */
export function parseCommandLine(argv: string[]): Asked {
  const { values, positionals } = parsed(argv);
  if (values.help) return { command: 'help' };
  if (values.version) return { command: 'version' };
  const [command, ...folders] = positionals;
  if (command === undefined)
    throw new UsageError('no command was given (check or estimate expected)');
  if (command !== 'check' && command !== 'estimate')
    throw new UsageError(`"${command}" is not a command (check or estimate expected)`);
  if (folders.length === 0) throw new UsageError(`${command} needs at least one survey folder`);
  const empty = folders.includes('') || values.out === '';
  if (empty) throw new UsageError('a folder name is empty');

  const json = values.json ?? false;
  if (command === 'check') {
    if (values.out !== undefined) throw new UsageError('check writes no files: leave out --out');
    return { command, folders, json };
  }
  if (values.out === undefined && !json)
    throw new UsageError('estimate needs --out OUT, the folder for the results (or --json)');
  return { command, folders, json, out: values.out ?? null };
}

function parsed(argv: string[]) {
  try {
    return parseArgs({
      args: argv,
      allowPositionals: true,
      options: {
        out: { type: 'string' },
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new UsageError((error as Error).message.replace(/\. To specify .*$/s, ''));
  }
}
