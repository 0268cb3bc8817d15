/** The command line as typed → what is asked for. */

import { parseArgs } from 'node:util';
import { UsageError } from './core.ts';
import type { EstimateAsked } from './estimate.ts';
import type { RehearseAsked } from './rehearse.ts';
import type { ServeAsked } from './serve.ts';

export type Asked =
  | { command: 'help' | 'version' }
  | { command: 'check'; folders: string[]; json: boolean }
  | ({ command: 'estimate' } & EstimateAsked)
  | ({ command: 'rehearse' } & RehearseAsked)
  | ({ command: 'serve' } & ServeAsked);

export const HELP = `shoalwise: from the field sheets of a mussel survey to a lake-wide number

  shoalwise check DIR…                 read and judge survey folders
  shoalwise estimate DIR… --out OUT    estimate, and write the results to OUT
                                       (to OUT/NAME for each of several folders)
  shoalwise rehearse DIR… --surveys N  simulate the survey N times and estimate
                                       each: what this design can deliver
  shoalwise serve DIR                  estimate, then show the survey on a map
                                       in your browser; Ctrl-C stops it

  --bootstrap B  estimate: also an interval from B redraws of the transects
  --reselect     with --bootstrap: choose the model anew in each redraw
  --from-truth   rehearse: simulate from DIR/truth.json, not from the fit
  --open         serve: show the page in the system's browser
  --port P       serve: this port (default: 7420, or a free one)
  --basemap URL  serve: let the page fetch map tiles from this address alone
                 (…/{z}/{x}/{y}.png, or a .pmtiles file)
  --no-estimate  serve: the page alone, nothing printed before
  --threads T    threads to use (default: one a core; same numbers)

  --json       check: the findings as JSON; estimate: estimate.json alone, on
               standard output (--out may then be left out)
  --help       this text
  --version    the version

Errors and notices go to standard error, one a line. Exit codes: 0 done,
2 errors in the data, 64 wrong command line, 1 a fault of the program
(SHOALWISE_DEBUG=1 shows where).
`;

/** Options that each command takes. */
const TAKES: Record<string, string[]> = {
  check: ['json'],
  estimate: ['json', 'out', 'bootstrap', 'reselect', 'threads'],
  rehearse: ['json', 'surveys', 'from-truth', 'threads'],
  serve: ['open', 'port', 'basemap', 'no-estimate'],
};

const COMMANDS = Object.keys(TAKES);

/** Throws UsageError with one sentence on what is wrong. */
export function parseCommandLine(argv: string[]): Asked {
  const { values, positionals } = parsed(argv);
  if (values.help) return { command: 'help' };
  if (values.version) return { command: 'version' };
  const [command, ...folders] = positionals;
  const choices = `${COMMANDS.slice(0, -1).join(', ')} or ${COMMANDS.at(-1)}`;
  if (command === undefined) throw new UsageError(`no command was given (${choices} expected)`);
  const takes = TAKES[command];
  if (takes === undefined)
    throw new UsageError(`"${command}" is not a command (${choices} expected)`);
  for (const option of Object.keys(values)) {
    if (takes.includes(option)) continue;
    if (command === 'check' && option === 'out') {
      throw new UsageError('check writes no files: leave out --out');
    }
    throw new UsageError(`${command} does not take --${option}`);
  }
  if (folders.length === 0) throw new UsageError(`${command} needs at least one survey folder`);
  if (folders.includes('') || values.out === '') throw new UsageError('a folder name is empty');
  const json = values.json ?? false;
  const threads = wholeNumber('threads', values.threads, 1);
  switch (command) {
    case 'check':
      return { command, folders, json };
    case 'rehearse': {
      const surveys = wholeNumber('surveys', values.surveys, 2);
      if (surveys === null)
        throw new UsageError('rehearse needs --surveys N, how many to simulate');
      return { command, folders, json, surveys, threads, fromTruth: values['from-truth'] ?? false };
    }
    case 'serve': {
      if (folders.length > 1) throw new UsageError('serve takes one survey folder');
      return {
        command,
        folder: folders[0]!,
        port: wholeNumber('port', values.port, 0, MOST_PORT),
        open: values.open ?? false,
        basemap: values.basemap ?? null,
        estimate: !values['no-estimate'],
      };
    }
    default: {
      if (values.out === undefined && !json) {
        throw new UsageError('estimate needs --out OUT, the folder for the results (or --json)');
      }
      const replicates = wholeNumber('bootstrap', values.bootstrap, 0);
      const reselect = values.reselect ?? false;
      return {
        command: 'estimate',
        folders,
        json,
        threads,
        replicates,
        reselect,
        out: values.out ?? null,
      };
    }
  }
}

const LARGEST = 1_000_000;
const MOST_PORT = 65_535;

function wholeNumber(
  option: string,
  text: string | undefined,
  least: number,
  most = LARGEST,
): number | null {
  if (text === undefined) return null;
  const value = /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= least && value <= most)) {
    throw new UsageError(`--${option}: "${text}" is not a whole number from ${least} to ${most}`);
  }
  return value;
}

function parsed(argv: string[]) {
  try {
    return parseArgs({
      args: argv,
      allowPositionals: true,
      options: {
        out: { type: 'string' },
        json: { type: 'boolean' },
        bootstrap: { type: 'string' },
        reselect: { type: 'boolean' },
        surveys: { type: 'string' },
        'from-truth': { type: 'boolean' },
        threads: { type: 'string' },
        open: { type: 'boolean' },
        port: { type: 'string' },
        basemap: { type: 'string' },
        'no-estimate': { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new UsageError((error as Error).message.replace(/\. To specify .*$/s, ''));
  }
}
