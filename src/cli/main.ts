/** The command line: what is asked, who does it, and the exit code. */

import { type Commands, runCommandLine } from './command-line.ts';
import { type Core, EXIT, type Terminal } from './core.ts';
import { reportFailure, whyUnwritten } from './failure.ts';

/** What only the launcher knows: where the built map application is, made anew if needed. */
export type ApplicationFolder = (tell: (text: string) => void) => Promise<string>;

/** Runs one command and returns its exit code; never throws. */
export async function main(
  argv: string[],
  terminal: Terminal = processTerminal(),
  core?: Core,
  applicationFolder: ApplicationFolder = noApplication,
): Promise<number> {
  let code: number = EXIT.done;
  const pipeline = async (): Promise<Core> => core ?? (await import('../pipeline.ts'));
  // each is loaded only when there is work: help and version need none of them
  const commands: Commands = {
    async importFiles(asked) {
      const { importFiles } = await import('./import.ts');
      code = await importFiles(await pipeline(), terminal, asked);
    },
    async check(asked) {
      const { check } = await import('./check.ts');
      code = await check(await pipeline(), terminal, asked);
    },
    async estimate(asked) {
      const { estimate } = await import('./estimate.ts');
      code = await estimate(await pipeline(), terminal, asked);
    },
    async rehearse(asked) {
      const { rehearse } = await import('./rehearse.ts');
      code = await rehearse(await pipeline(), terminal, asked);
    },
    async differences(asked) {
      const { differences } = await import('./differences.ts');
      const { compareCopies } = await import('../pipeline/copies.ts');
      code = await differences(compareCopies, terminal, asked);
    },
    async areas(asked) {
      const { areas } = await import('./areas.ts');
      code = await areas(await pipeline(), terminal, asked);
    },
    async compare(asked) {
      const { compare } = await import('./compare.ts');
      const { compareSurveys } = await import('../pipeline/compare.ts');
      code = await compare({ ...(await pipeline()), compareSurveys }, terminal, asked);
    },
    async plan(asked) {
      const { plan } = await import('./plan.ts');
      const [{ planSurvey }, { planStated }] = await Promise.all([
        import('../pipeline/plan.ts'),
        import('../pipeline/plan-stated.ts'),
      ]);
      code = await plan({ ...(await pipeline()), planStated, planSurvey }, terminal, asked);
    },
    async batch(asked) {
      const { batch } = await import('./batch.ts');
      code = await batch(terminal, asked);
    },
    async publish(asked) {
      const { publish } = await import('./publish.ts');
      code = await publish(await pipeline(), terminal, asked);
    },
    async exportFiles(asked) {
      const { exportFiles } = await import('./export.ts');
      code = await exportFiles(await pipeline(), terminal, asked);
    },
    async sheets(asked) {
      const { sheets } = await import('./sheets.ts');
      code = await sheets(await pipeline(), terminal, asked);
    },
    async serve(asked) {
      const { serve } = await import('./serve.ts');
      code = await serve(await pipeline(), terminal, asked, applicationFolder);
    },
  };
  try {
    await runCommandLine(argv, commands, terminal);
    return code;
  } catch (error) {
    return reportFailure(error, 'shoalwise', terminal);
  }
}

const noApplication: ApplicationFolder = () =>
  Promise.reject(new Error('the map application is served by the launcher alone'));

/** The process's own streams. A reader that stops early (`… | head`) is no error; a full disk behind `>` is. */
function processTerminal(): Terminal {
  process.stderr.on('error', () => {}); // then nothing can be told
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') return;
    process.stderr.write(`shoalwise: standard output cannot be written (${whyUnwritten(error)})\n`);
    process.once('exit', () => {
      process.exitCode = EXIT.output;
    });
  });
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    bold: process.stdout.isTTY === true && !process.env.NO_COLOR,
    live: process.stderr.isTTY === true,
  };
}
