/** The command line: what is asked, who does it, and the exit code. */

import packageJson from '../../package.json' with { type: 'json' };
import { type Asked, HELP, parseCommandLine } from './arguments.ts';
import { check } from './check.ts';
import { type Core, EXIT, type Terminal, UsageError } from './core.ts';
import { tellFault } from './each-folder.ts';
import { estimate } from './estimate.ts';
import { rehearse } from './rehearse.ts';
import { serve } from './serve.ts';

/** What only the launcher knows: where the built map application is, made anew if needed. */
export type ApplicationFolder = (tell: (text: string) => void) => Promise<string>;

/** Runs one command and returns its exit code; never throws. */
export async function main(
  argv: string[],
  terminal: Terminal = processTerminal(),
  core?: Core,
  applicationFolder: ApplicationFolder = noApplication,
): Promise<number> {
  try {
    return await run(parseCommandLine(argv), terminal, core, applicationFolder);
  } catch (error) {
    if (!(error instanceof UsageError)) return tellFault(error, 'shoalwise', terminal);
    terminal.err(`shoalwise: ${error.message}\nshoalwise --help tells how it is used.\n`);
    return EXIT.usage;
  }
}

async function run(
  asked: Asked,
  terminal: Terminal,
  core: Core | undefined,
  applicationFolder: ApplicationFolder,
): Promise<number> {
  switch (asked.command) {
    case 'help':
      terminal.out(HELP);
      return EXIT.done;
    case 'version':
      terminal.out(`${packageJson.version}\n`);
      return EXIT.done;
    case 'check':
      return await check(core ?? (await pipeline()), terminal, asked);
    case 'estimate':
      return await estimate(core ?? (await pipeline()), terminal, asked);
    case 'rehearse':
      return await rehearse(core ?? (await pipeline()), terminal, asked);
    case 'serve':
      return await serve(core ?? (await pipeline()), terminal, asked, applicationFolder);
  }
}

const noApplication: ApplicationFolder = () =>
  Promise.reject(new Error('the map application is served by the launcher alone'));

/** Loaded only when there is work: help and version need none of it. */
const pipeline = (): Promise<Core> => import('../pipeline.ts');

/** The process's own streams. A reader that stops early (`… | head`) is no fault. */
function processTerminal(): Terminal {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    bold: process.stdout.isTTY === true && !process.env.NO_COLOR,
    live: process.stderr.isTTY === true,
  };
}
