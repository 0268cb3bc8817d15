/** The command line of `serve`. */

import type { Command } from 'commander';
import { examples, listAll } from './command-help.ts';
import { MOST_PORT, someText, surveyFolder, USUAL_PORT, wholeNumber } from './options.ts';
import type { ServeAsked } from './serve.ts';

export function addServe(program: Command, run: (asked: ServeAsked) => Promise<void>): void {
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
