/**
 * Serves the built application and one survey folder to this machine alone. Nothing else on the disk can be asked for: the
 * application's files are read when it starts (a new build does not disturb it), the survey's by their names.
 */

import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, relative, resolve } from 'node:path';
import { InputError } from './core.ts';
import { folderName, readSurveyFile, surveyFileStates } from './folder.ts';
import { contentSecurityPolicy, securityHeaders } from './security.ts';

export interface ServerOptions {
  /** folder of the built application */
  application: string;
  /** the survey folder */
  survey: string;
  port: number;
  /** take a free port when `port` is in use */
  orAnyPort: boolean;
  basemap: string | null;
  basemapOrigin: string | null;
}

export interface RunningServer {
  /** `http://localhost:7420/` */
  address: string;
  close(): Promise<void>;
}

/** Only from this machine. */
const HOST = '127.0.0.1';

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.geojson': 'application/geo+json',
  '.csv': 'text/csv; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.tif': 'image/tiff',
};

/** As the build writes it. */
const POLICY_IN_PAGE = /(<meta http-equiv="Content-Security-Policy" content=")[^"]*(">)/;

/** Throws when the port is taken and must not be another one. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const application = await applicationFiles(options.application);
  const server = createServer((request, response) => {
    answer(request, response, options, application).catch((error: Error) => {
      const status = error instanceof InputError ? 404 : 500;
      if (!response.headersSent) response.writeHead(status, { 'Content-Type': 'text/plain' });
      response.end(error.message);
    });
  });
  const port = await listen(server, options.port, options.orAnyPort);
  return {
    address: `http://localhost:${port}/`,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

async function listen(server: Server, port: number, orAny: boolean): Promise<number> {
  const attempt = (p: number): Promise<number> =>
    new Promise((done, fail) => {
      server.once('error', fail);
      server.listen(p, HOST, () => {
        server.off('error', fail);
        done((server.address() as AddressInfo).port);
      });
    });
  try {
    return await attempt(port);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE' || !orAny) throw error;
    return attempt(0);
  }
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  options: ServerOptions,
  application: Map<string, Uint8Array>,
): Promise<void> {
  const headers = securityHeaders({ basemapOrigin: options.basemapOrigin });
  const send = (status: number, type: string, body: string | Uint8Array, cache = 'no-cache') => {
    response.writeHead(status, { ...headers, 'Content-Type': type, 'Cache-Control': cache });
    response.end(request.method === 'HEAD' ? undefined : body);
  };
  if (!isLocal(request.headers.host)) return send(403, 'text/plain', 'asked for by another name');
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return send(405, 'text/plain', 'only GET is answered');
  const path = pathOf(request.url);
  if (path === null) return send(400, 'text/plain', 'not an address');
  if (path === '' || path === 'index.html')
    return send(200, TYPES['.html'], await page(options, application));
  if (path === 'served.json')
    return send(
      200,
      TYPES['.json'],
      JSON.stringify(await servedSurvey(options.survey)),
      'no-store',
    );
  if (path.startsWith('survey/')) {
    const bytes = await readSurveyFile(options.survey, path.slice('survey/'.length));
    if (bytes === null) return send(404, 'text/plain', 'no such file in the survey');
    return send(200, typeOf(path), bytes, 'no-store');
  }
  const file = application.get(path);
  if (file === undefined) return send(404, 'text/plain', 'no such file');
  const lasting = path.startsWith('assets/') ? 'public, max-age=31536000, immutable' : 'no-cache';
  send(200, typeOf(path), file, lasting);
}

/** Path with slashes → bytes. Throws when there is no page among them. */
async function applicationFiles(folder: string): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    files.set(relative(folder, path).replaceAll('\\', '/'), await readFile(path));
  }
  if (!files.has('index.html')) throw new Error(`${folder} holds no index.html`);
  return files;
}

/** The page, told that a survey is served and which base map may be fetched. */
async function page(options: ServerOptions, application: Map<string, Uint8Array>): Promise<string> {
  const html = new TextDecoder().decode(application.get('index.html'));
  const told = [meta('served-survey', folderName(options.survey))];
  if (options.basemap !== null) told.push(meta('base-map', options.basemap));
  const { basemapOrigin } = options;
  return html
    .replace(
      POLICY_IN_PAGE,
      (_, before: string, after: string) =>
        before + escaped(contentSecurityPolicy('meta', { basemapOrigin })) + after,
    )
    .replace('</head>', () => `${told.join('')}</head>`);
}

/** The files of the survey, a key of their folder that does not tell its path, and a state that changes when one of them does. */
async function servedSurvey(
  folder: string,
): Promise<{ name: string; files: string[]; key: string; state: string }> {
  const states = await surveyFileStates(folder);
  const marks = states.map(({ name, size, mtimeMs }) => `${name} ${size} ${mtimeMs}`);
  const short = (text: string): string =>
    createHash('sha256').update(text).digest('hex').slice(0, 16);
  return {
    name: folderName(folder),
    files: states.map(({ name }) => name),
    key: short(resolve(folder)),
    state: short(marks.join('\n')),
  };
}

function meta(name: string, content: string): string {
  return `<meta name="${name}" content="${escaped(content)}">`;
}

/** As an attribute's text. */
function escaped(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('"', '&quot;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}

function pathOf(url: string | undefined): string | null {
  try {
    return decodeURIComponent(new URL(url ?? '', 'http://localhost').pathname).slice(1);
  } catch {
    return null;
  }
}

function typeOf(path: string): string {
  return TYPES[extname(path).toLowerCase()] ?? 'application/octet-stream';
}

/** A page of another origin that had its name point here must not read the survey. */
function isLocal(host: string | undefined): boolean {
  return /^(localhost|127\.0\.0\.1)(:\d+)?$/.test(host ?? '');
}
