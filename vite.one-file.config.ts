/**
 * How the program is put into one file, dist/shoalwise.html: it opens from a disk or a stick, where a page can fetch nothing,
 * its neighbours included. Scripts, styles, fonts, workers, the database library and the demo lake all stand in the page; a policy
 * lets it run those scripts and no others, and lets it reach no network.
 */

import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin, type Rolldown } from 'vite';
import { SURVEY_FILES } from './shared/survey-files.ts';
import { viewerInPage } from './src/viewer/bundle.mjs';
import { neededParts, styleOfWhatIsShown } from './vite.parts.ts';

const ROOT = import.meta.dirname;
const PAGE = 'index.html';
/** As src/app/storage/one-file.ts looks for it. */
const DEMO_ELEMENT = 'demo-lake-files';
/** The function of PARTS that gives a part's address. */
const ADDRESS_OF = 'addressOfPart';

/**
 * Before the page's own script. A worker's script stands in a data block and gets an address when it is asked for. From such an
 * address of a local page browsers start an ordinary script and no module, whatever it is asked for as; the map library knows an
 * ordinary one by `.cjs`.
 */
const PARTS = `
const addresses = {};
function ${ADDRESS_OF}(name) {
  addresses[name] ??= URL.createObjectURL(
    new Blob([document.querySelector('script[data-part="' + name + '"]').textContent], { type: 'text/javascript' }),
  ) + '#.cjs';
  return addresses[name];
}
globalThis.Worker = class extends Worker {
  constructor(address, options) {
    super(address, { ...options, type: 'classic' });
  }
};
`;

export default defineConfig({
  base: './',
  publicDir: false,
  plugins: [react(), styleOfWhatIsShown(), intoOneFile()],
  worker: {
    format: 'iife',
    plugins: () => [neededParts(), viewerInPage()],
    rolldownOptions: { output: { codeSplitting: false } },
  },
  experimental: {
    renderBuiltUrl: (name, { hostType }) =>
      hostType === 'js'
        ? { runtime: `${ADDRESS_OF}(${JSON.stringify(name)})` }
        : { relative: true },
  },
  build: {
    target: 'es2023',
    outDir: 'dist/one-file',
    emptyOutDir: true,
    cssCodeSplit: false,
    assetsInlineLimit: Number.MAX_SAFE_INTEGER,
    chunkSizeWarningLimit: 10_000,
    modulePreload: false,
    reportCompressedSize: false,
    rolldownOptions: { output: { codeSplitting: false } },
  },
});

/** Everything that was built goes into the page. Fails where something is left over, for it could not be fetched. */
function intoOneFile(): Plugin {
  return {
    name: 'into-one-file',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post', // what other plugins leave to the last moment is done by then
      handler(_, bundle) {
        const page = bundle[PAGE];
        if (page?.type !== 'asset') this.error(`got no ${PAGE}`);
        const { scripts, styles, workers } = sorted(bundle);
        if (scripts.length !== 1) this.error(`got ${scripts.length} scripts, expected one`);
        const script = PARTS + scripts[0]!.code;
        const data = [
          ...workers.map(
            ({ name, code }) => `<script type="text/plain" data-part="${name}">${code}</script>`,
          ),
          `<script type="application/json" id="${DEMO_ELEMENT}">${demoFiles()}</script>`,
        ];
        page.source = filled(String(page.source), script, styles, data);
        for (const name of Object.keys(bundle)) if (name !== PAGE) delete bundle[name];
      },
    },
  };
}

interface Script {
  name: string;
  code: string;
}

function sorted(bundle: Rolldown.OutputBundle): {
  scripts: Script[];
  workers: Script[];
  styles: string;
} {
  const scripts: Script[] = [];
  const workers: Script[] = [];
  let styles = '';
  for (const [name, made] of Object.entries(bundle)) {
    if (name === PAGE) continue;
    if (made.type === 'chunk') scripts.push({ name, code: inScript(made.code) });
    else if (name.endsWith('.js')) workers.push({ name, code: inScript(String(made.source)) });
    else if (name.endsWith('.css')) styles += String(made.source);
    else throw new Error(`${name} is not a part that the page can hold`);
  }
  return { scripts, workers, styles };
}

/**
 * The script so that HTML reads all of it as one element's text: in JavaScript `\x3c` is `<` wherever these can stand, in strings and
 * patterns. Throws on characters that a browser would change when it reads the page.
 */
function inScript(code: string): string {
  if (/[\0\r]/.test(code)) throw new Error('a script holds a character that HTML does not keep');
  return code.replace(/\n?\/\/# sourceMappingURL=.*$/m, '').replace(/<(?=\/script|!--)/gi, '\\x3c');
}

/** JSON of name → text. */
function demoFiles(): string {
  const folder = join(ROOT, 'demo-lake');
  const names = SURVEY_FILES.filter((name) => existsSync(join(folder, name)));
  if (names.some((name) => name.endsWith('.tif'))) throw new Error('the page holds texts alone');
  const texts = names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]);
  return JSON.stringify(Object.fromEntries(texts)).replaceAll('<', '\\u003c');
}

/** The page with its parts inside of it and its policy right behind its encoding, which has to stand near the file's begin. */
function filled(page: string, script: string, styles: string, data: string[]): string {
  const mark = readFileSync(join(ROOT, 'public/mark.svg')).toString('base64');
  const policy = [
    "default-src 'none'",
    `script-src ${digest(script)} 'wasm-unsafe-eval'`,
    `style-src ${digest(styles)}`,
    'img-src blob: data:',
    'font-src data:',
    'worker-src blob:',
    'connect-src blob: data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const steps: [RegExp, string][] = [
    [/\s*<script type="module"[^>]*><\/script>/, ''],
    [/\s*<link rel="stylesheet"[^>]*>/, ''],
    // a file from a disk is not installed
    [/\s*<link rel="apple-touch-icon"[^>]*>/, ''],
    [/\s*<link rel="manifest"[^>]*>/, ''],
    [/\.\/mark\.svg/, `data:image/svg+xml;base64,${mark}`],
    [
      /(?<=<meta charset="utf-8" \/>)/,
      `\n    <meta http-equiv="Content-Security-Policy" content="${policy}" />`,
    ],
    [/(?=<\/head>)/, `<style>${styles}</style>\n  `],
    [/(?=<\/body>)/, `${data.join('\n')}\n<script type="module">${script}</script>\n  `],
  ];
  return steps.reduce((text, [at, what]) => {
    if (!at.test(text)) throw new Error(`got a page without ${at}`);
    return text.replace(at, () => what);
  }, page);
}

/** By which a policy names a script or a style. */
function digest(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}
