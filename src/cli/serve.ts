/** shoalwise serve DIR: the estimate in the terminal, then the map application on this machine with the survey open in it. */

import { spawn } from 'node:child_process';
import { type Core, EXIT, type Terminal, UsageError } from './core.ts';
import { eachFolder } from './each-folder.ts';
import { printFindings } from './finding-lines.ts';
import { readSurveyFolder } from './folder.ts';
import { USUAL_PORT } from './options.ts';
import { startServer } from './server.ts';
import { summary } from './summary.ts';

export interface ServeAsked {
  folder: string;
  /** null = the usual one, or a free one when that is taken */
  port: number | null;
  /** show the page in the system's browser */
  open: boolean;
  /** address of map tiles that the page may fetch, {z}/{x}/{y} or a .pmtiles file; null = none */
  basemap: string | null;
  /** false: the page alone, without an estimate in the terminal */
  estimate: boolean;
  /** no error or notice is summed up */
  listAll: boolean;
}

/** Runs until it is interrupted. `applicationFolder` builds the page when it is not up to date. */
export async function serve(
  core: Core,
  terminal: Terminal,
  asked: ServeAsked,
  applicationFolder: (tell: (text: string) => void) => Promise<string>,
): Promise<number> {
  // what cannot be served is said before anything is built
  const basemapOrigin = asked.basemap === null ? null : originOf(asked.basemap);
  await readSurveyFolder(asked.folder);
  if (asked.estimate) await printEstimate(core, terminal, asked);
  const server = await startServer({
    application: await applicationFolder((text) => terminal.err(text)),
    survey: asked.folder,
    port: asked.port ?? USUAL_PORT,
    orAnyPort: asked.port === null,
    basemap: asked.basemap,
    basemapOrigin,
  });
  const stop = interrupted(); // before the address is told: whoever reads it may end this at once
  terminal.out(`\nThe map is at ${server.address}  (Ctrl-C stops it)\n`);
  if (asked.open) openInBrowser(server.address, terminal);
  await stop;
  await server.close();
  terminal.out('\nStopped.\n');
  return EXIT.done;
}

/** Errors do not keep the page from being served: it shows them in their cells. */
async function printEstimate(
  core: Core,
  terminal: Terminal,
  { folder, listAll }: ServeAsked,
): Promise<void> {
  await eachFolder([folder], terminal, async (survey, { prefix, progress }) => {
    const done = await core.estimateSurvey(survey, {
      progress: progress.report,
      compareOutside: true,
    });
    progress.clear();
    const findings = done.ok ? done.result.findings : done.findings;
    printFindings(findings, terminal, prefix, listAll);
    if (done.ok) terminal.out(summary(done.result, { bold: terminal.bold, noticesPrinted: true }));
    return { code: EXIT.done, value: null };
  });
}

/** Of a base map: an address of single tiles ({z}/{x}/{y}) or of one PMTiles file. */
export function originOf(address: string): string {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url === null || !/^https?:$/.test(url.protocol))
    throw new UsageError(`--basemap "${address}" is not a web address (https://… expected)`);
  const tiles = ['{z}', '{x}', '{y}'].every((part) => address.includes(part));
  if (!tiles && !url.pathname.toLowerCase().endsWith('.pmtiles'))
    throw new UsageError(
      `--basemap "${address}" names no tiles: {z}, {x} and {y} in the address, or a .pmtiles file, are expected`,
    );
  return url.origin;
}

/** Resolves on Ctrl-C, on a request to end, and when the terminal is closed. */
function interrupted(): Promise<void> {
  return new Promise((done) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const)
      process.once(signal, () => done());
  });
}

function openInBrowser(address: string, terminal: Terminal): void {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command!, args, { stdio: 'ignore', detached: true });
  child.on('error', () => terminal.err('No browser could be opened: open the address yourself.\n'));
  child.unref();
}
