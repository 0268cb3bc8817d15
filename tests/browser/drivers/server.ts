/** The server as a user starts it, in a process of its own. */

import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';

const ROOT = join(import.meta.dirname, '../../..');

export interface TestServer {
  address: string;
  /** Ctrl-C; resolves with the exit code */
  stop(): Promise<number | null>;
}

/** `shoalwise serve FOLDER` on a free port; resolves when the address has been printed. */
export function serveFolder(folder: string, ...args: string[]): Promise<TestServer> {
  return serveFrom(ROOT, folder, ...args);
}

/** The same from a repository at `root`. */
export async function serveFrom(
  root: string,
  folder: string,
  ...args: string[]
): Promise<TestServer> {
  const launch = join(root, 'src/cli/launch.mjs');
  const server = spawn(
    process.execPath,
    [launch, 'serve', folder, '--no-estimate', '--port', '0', ...args],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const address = await printedAddress(server);
  return {
    address,
    stop: () =>
      new Promise((done) => {
        if (server.exitCode !== null) done(server.exitCode);
        server.once('exit', (code) => done(code));
        server.kill('SIGINT');
      }),
  };
}

function printedAddress(server: ChildProcess): Promise<string> {
  return new Promise((done, fail) => {
    let said = '';
    const listen = (chunk: Buffer) => {
      said += chunk.toString();
      const address = /http:\/\/localhost:\d+\//.exec(said);
      if (address) done(address[0]);
    };
    server.stdout!.on('data', listen);
    server.stderr!.on('data', listen);
    server.once('exit', (code) => fail(new Error(`the server ended with ${code}: ${said}`)));
  });
}
