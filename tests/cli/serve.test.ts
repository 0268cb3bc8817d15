/** The server: the page and one survey, to this machine alone, under a strict policy. */

import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, symlinkSync, unlinkSync, writeFileSync } from 'node:fs';
import { get, type IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { contentSecurityPolicy } from '../../src/cli/security.ts';
import { originOf } from '../../src/cli/serve.ts';
import { type RunningServer, startServer } from '../../src/cli/server.ts';
import { testFolder } from '../helpers/folder.ts';
import { keepingTerminal, namedCore } from './terminal.ts';

/** As the build writes it, quotes escaped. */
const POLICY = contentSecurityPolicy('meta').replaceAll("'", '&#39;');
const PAGE = `<html><head><meta http-equiv="Content-Security-Policy" content="${POLICY}"></head><body></body></html>`;

describe('the server', () => {
  const folder = testFolder();
  const application = join(folder, 'app');
  const survey = join(folder, 'my "lake" <1>');
  let server: RunningServer;
  const options = {
    application,
    survey,
    port: 0,
    orAnyPort: false,
    basemap: null,
    basemapOrigin: null,
  };

  beforeAll(async () => {
    mkdirSync(join(application, 'assets'), { recursive: true });
    mkdirSync(survey);
    writeFileSync(join(application, 'index.html'), PAGE);
    writeFileSync(join(application, 'assets', 'x.js'), 'export {};');
    writeFileSync(join(folder, 'secret.txt'), 'not for the page');
    writeFileSync(join(survey, 'transects.csv'), 'transect\nT1\n');
    writeFileSync(join(survey, 'diary.txt'), 'not of the survey');
    server = await startServer(options);
  });
  afterAll(() => server.close());

  it('gives the page, told which survey is served', async () => {
    const { status, body, headers } = await ask(server.address);
    expect(status).toBe(200);
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
    expect(body).toContain('<meta name="served-survey" content="my &quot;lake&quot; &lt;1&gt;">');
  });

  it('tells the files of the folder and another state whenever one of them changes on disk', async () => {
    const told = async () => JSON.parse((await ask(`${server.address}served.json`)).body);
    const before = await told();
    expect(before).toMatchObject({ name: 'my "lake" <1>', files: ['transects.csv'] });
    expect(await told()).toEqual(before);
    writeFileSync(join(survey, 'diary.txt'), 'changed, but not of the survey');
    expect(await told()).toEqual(before);
    writeFileSync(join(survey, 'habitat.csv'), 'transect\nT1\n');
    const after = await told();
    expect(after.files).toEqual(['transects.csv', 'habitat.csv']);
    expect(after.key).toBe(before.key);
    expect(after.state).not.toBe(before.state);
    expect(JSON.stringify(after)).not.toContain(folder);
  });

  it('sends a strict policy with every answer', async () => {
    for (const path of ['', 'assets/x.js', 'survey/transects.csv', 'nothing']) {
      const { headers } = await ask(server.address + path);
      const policy = headers['content-security-policy'] as string;
      for (const rule of [
        "default-src 'self'",
        "object-src 'none'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "style-src 'self'",
      ])
        expect(policy.split('; ')).toContain(rule);
      expect(policy).not.toContain('unsafe-inline');
      expect(policy).not.toMatch(/https?:/);
      expect(headers['x-content-type-options']).toBe('nosniff');
    }
  });

  it('gives the files of the application and of the survey, and nothing else', async () => {
    expect((await ask(`${server.address}assets/x.js`)).body).toBe('export {};');
    expect((await ask(`${server.address}survey/transects.csv`)).body).toBe('transect\nT1\n');
    for (const path of [
      'survey/diary.txt',
      'secret.txt',
      '../secret.txt',
      '%2e%2e/secret.txt',
      'survey/../../secret.txt',
      'survey/..%2f..%2fsecret.txt',
      'assets',
      '%',
    ])
      expect((await ask(server.address + path)).status).toBeGreaterThanOrEqual(400);
  });

  it('a pipe, a link out of the folder or a device that appears meanwhile is neither waited for nor served', async () => {
    const told = async () => JSON.parse((await ask(`${server.address}served.json`)).body).files;
    const before = await told();
    execFileSync('mkfifo', [join(survey, 'detections.csv')]);
    symlinkSync('../secret.txt', join(survey, 'analysis.json'));
    symlinkSync('/dev/zero', join(survey, 'depth.tif'));
    try {
      expect(await told()).toEqual(before);
      for (const name of ['detections.csv', 'analysis.json', 'depth.tif']) {
        const { status, body } = await ask(`${server.address}survey/${name}`);
        expect(status).toBe(404);
        expect(body).not.toContain('not for the page');
      }
      // the others are still there
      expect((await ask(`${server.address}survey/transects.csv`)).body).toBe('transect\nT1\n');
    } finally {
      for (const name of ['detections.csv', 'analysis.json', 'depth.tif'])
        unlinkSync(join(survey, name));
    }
  });

  it('answers to no other name, so that a foreign page cannot have its own name point here', async () => {
    expect((await ask(server.address, { host: 'evil.example' })).status).toBe(403);
    expect((await ask(server.address, { host: 'localhost.evil.example' })).status).toBe(403);
  });

  it('lets the page reach a base map of the user alone', async () => {
    const mapped = await startServer({
      ...options,
      basemap: 'https://tiles.example/{z}/{x}/{y}.png',
      basemapOrigin: 'https://tiles.example',
    });
    const { headers, body } = await ask(mapped.address);
    const rule = "connect-src 'self' blob: data: https://tiles.example";
    expect(headers['content-security-policy']).toContain(rule);
    expect(body).toContain(rule);
    expect(body).toContain(
      '<meta name="base-map" content="https://tiles.example/{z}/{x}/{y}.png">',
    );
    await mapped.close();
  });

  it.each([
    ['https://tiles.example/{z}/{x}/{y}.png', 'https://tiles.example'],
    ['http://localhost:8080/lake.pmtiles?key=1', 'http://localhost:8080'],
  ])('takes %s for a base map', (address, origin) => {
    expect(originOf(address)).toBe(origin);
  });

  it.each([
    ['tiles.png', 'is not a web address'],
    ['file:///tmp/a.pmtiles', 'is not a web address'],
    ['https://tiles.example/', 'names no tiles'],
    ['https://tiles.example/{z}/{x}.png', 'names no tiles'],
  ])('refuses %s for a base map', (address, message) => {
    expect(() => originOf(address)).toThrow(message);
  });

  it('takes a free port where its own is in use, or says that it is', async () => {
    const port = Number(new URL(server.address).port);
    await expect(startServer({ ...options, port })).rejects.toThrow('EADDRINUSE');
    const other = await startServer({ ...options, port, orAnyPort: true });
    expect(new URL(other.address).port).not.toBe(String(port));
    await other.close();
  });
});

describe('shoalwise serve', () => {
  it('prints each notice once: on standard error, and in the summary their number', async () => {
    const folder = join(testFolder(), 'good');
    mkdirSync(join(folder, 'app'), { recursive: true });
    writeFileSync(join(folder, 'app', 'index.html'), PAGE);
    const terminal = keepingTerminal();
    const code = await main(
      ['serve', folder, '--port', '0'],
      {
        ...terminal,
        out(text) {
          terminal.out(text);
          if (text.includes('Ctrl-C')) process.emit('SIGHUP'); // as when the terminal is closed
        },
        err: (text) => terminal.err(text),
      },
      namedCore(),
      async () => join(folder, 'app'),
    );
    expect(code).toBe(0);
    expect(terminal.stderr).toBe(
      'notice: transects.csv row 3, length_m: the rope is 35 m long; used as it is\n',
    );
    expect(terminal.stdout).toContain('\nNotices (1)\n  As above.\n\nThe map is at http');
    expect(terminal.stdout).not.toContain('35 m long');
  });

  it.each([
    ['SIGINT', 'SIGINT'],
    ['SIGTERM', 'SIGTERM'],
  ] as const)('stops on %s with code 0', async (_, signal) => {
    const folder = testFolder();
    mkdirSync(join(folder, 'app'));
    writeFileSync(join(folder, 'app', 'index.html'), PAGE);
    const program = join(folder, 'program.mts');
    const main = pathToFileURL(join(import.meta.dirname, '../../src/cli/main.ts')).href;
    writeFileSync(
      program,
      `const { main } = await import(${JSON.stringify(main)});
       process.exitCode = await main(['serve', ${JSON.stringify(folder)}, '--no-estimate', '--port', '0'], undefined, undefined, async () => ${JSON.stringify(join(folder, 'app'))});`,
    );
    const child = spawn(process.execPath, ['--import', 'tsx', program], {
      cwd: join(import.meta.dirname, '../..'),
    });
    let said = '';
    child.stdout.on('data', (chunk) => {
      said += chunk;
      if (said.includes('Ctrl-C') && !said.includes('Stopped')) child.kill(signal);
    });
    const code = await new Promise((done) => child.once('exit', done));
    expect(said).toMatch(
      /^\nThe map is at http:\/\/localhost:\d+\/ {2}\(Ctrl-C stops it\)\n\nStopped\.\n$/,
    );
    expect(code).toBe(0);
  });
});

function ask(
  address: string,
  headers: Record<string, string> = {},
): Promise<{ status: number; body: string; headers: IncomingMessage['headers'] }> {
  const { hostname, port } = new URL(address);
  const path = address.replace(/^http:\/\/[^/]+/, ''); // as it is: a URL would resolve the dots
  return new Promise((done, fail) => {
    get({ hostname, port, path, headers }, (answer) => {
      let body = '';
      answer.on('data', (chunk) => {
        body += chunk;
      });
      answer.on('end', () => done({ status: answer.statusCode!, body, headers: answer.headers }));
    }).on('error', fail);
  });
}
