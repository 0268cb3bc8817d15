/**
 * The script of the public map as one text, for the pages that carry it: as the module `virtual:public-viewer`, made from
 * src/viewer/main.ts wherever a bundle imports it. Plain JavaScript, for bundlers load it as it is.
 */

import { createHash } from 'node:crypto';
import { join } from 'node:path';

const NAME = 'virtual:public-viewer';

/** JavaScript of a module that gives the script and the hash by which a page's policy lets it run. */
async function viewerModule() {
  const { build } = await import('esbuild');
  const made = await build({
    entryPoints: [join(import.meta.dirname, 'main.ts')],
    bundle: true,
    platform: 'browser',
    format: 'esm',
    target: 'es2022',
    minify: true,
    charset: 'utf8',
    write: false,
    logLevel: 'error',
  });
  const text = made.outputFiles[0].text.trim();
  const hash = `sha256-${createHash('sha256').update(text).digest('base64')}`;
  return `export default ${JSON.stringify({ text, hash })};`;
}

/** For esbuild. */
export const viewerInBundle = {
  name: 'public-viewer',
  setup(build) {
    build.onResolve({ filter: /^virtual:public-viewer$/ }, () => ({
      path: NAME,
      namespace: 'public-viewer',
    }));
    build.onLoad({ filter: /.*/, namespace: 'public-viewer' }, async () => ({
      contents: await viewerModule(),
      loader: 'js',
    }));
  },
};

/** For Vite and Vitest. */
export function viewerInPage() {
  return {
    name: 'public-viewer',
    resolveId: (source) => (source === NAME ? `\0${NAME}` : null),
    load: (id) => (id === `\0${NAME}` ? viewerModule() : null),
  };
}
