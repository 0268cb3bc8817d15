/** How the map application is built: one page, its worker, the demo lake and an offline cache, all from one origin. */

import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin, transformWithOxc } from 'vite';
import { contentSecurityPolicy } from './src/cli/security.ts';
import { viewerInPage } from './src/viewer/bundle.mjs';
import { databaseAsFile, neededParts, styleOfWhatIsShown } from './vite.parts.ts';

const ROOT = import.meta.dirname;
const DEMO_FILES = /\.(csv|geojson|json|tif)$/;

/** Libraries that change rarely, in files of their own. */
const GROUPS = [
  // what page and worker share in one file, loaded once; what only one of them needs in another
  { name: 'map', test: /node_modules[\\/](maplibre-gl|@maplibre)[\\/]/, entriesAware: true },
  {
    name: 'plot',
    test: /node_modules[\\/](@observablehq|d3-|d3|internmap|isoformat|interval-tree-1d|binary-search-bounds)/,
  },
  { name: 'react', test: /node_modules[\\/](react|react-dom|scheduler)[\\/]/ },
];

export default defineConfig({
  base: './',
  plugins: [
    react(),
    mapFromItsParts(),
    styleOfWhatIsShown(),
    policyInPage(),
    demoLake(),
    offlineCache(),
  ],
  worker: { format: 'es', plugins: () => [neededParts(), databaseAsFile(), viewerInPage()] },
  build: {
    target: 'es2023',
    outDir: 'dist/site',
    emptyOutDir: true,
    chunkSizeWarningLimit: 1200,
    rolldownOptions: { output: { codeSplitting: { groups: GROUPS } } },
  },
});

/**
 * The map library comes as two files, one for the page and one for its worker, that repeat each other by half. From the sources
 * it brings along the build makes one file of what both need: a quarter less of it to load. Development takes the two files.
 */
function mapFromItsParts(): Plugin {
  const sources = join(ROOT, 'node_modules/maplibre-gl/src');
  const workerUrl = '\0map-worker-url';
  return {
    name: 'map-from-its-parts',
    apply: 'build',
    enforce: 'pre',
    resolveId(source) {
      if (source === 'maplibre-gl') return join(sources, 'index.ts');
      return source === 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url' ? workerUrl : null;
    },
    load(id) {
      if (id !== workerUrl) return null;
      const worker = join(sources, 'source/worker.ts');
      const made = this.emitFile({ type: 'chunk', id: worker, name: 'map-worker' });
      return `export default import.meta.ROLLUP_FILE_URL_${made};`;
    },
    // the library declares fields anew in subclasses, which must not make them undefined
    async transform(code, id) {
      if (!id.startsWith(sources) || !id.endsWith('.ts')) return null;
      const { code: made, map } = await transformWithOxc(code, id, {
        assumptions: { setPublicClassFields: true },
        typescript: { removeClassFieldsWithoutInitializer: true },
      });
      return { code: made, map, moduleType: 'js' };
    },
  };
}

/** The policy also stands in the page, for servers that send no headers. Not in development, which needs inline scripts. */
function policyInPage(): Plugin {
  return {
    name: 'policy-in-page',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy('meta') },
        injectTo: 'head-prepend',
      },
    ],
  };
}

/** demo-lake/ beside the page; in development it is there anyway. */
function demoLake(): Plugin {
  return {
    name: 'demo-lake',
    apply: 'build',
    generateBundle() {
      const folder = join(ROOT, 'demo-lake');
      for (const name of readdirSync(folder))
        if (DEMO_FILES.test(name))
          this.emitFile({
            type: 'asset',
            fileName: `demo-lake/${name}`,
            source: readFileSync(join(folder, name)),
          });
    },
  };
}

/** sw.js: keeps every built file, so that the page opens without a network; a new build has a new cache. */
function offlineCache(): Plugin {
  return {
    name: 'offline-cache',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const files = Object.keys(bundle).filter((name) => !name.endsWith('.map'));
      const fixed = readdirSync(join(ROOT, 'public'));
      const names = ['./', ...[...files, ...fixed].filter((name) => name !== 'index.html').sort()];
      const state = createHash('sha256');
      for (const name of Object.keys(bundle).sort()) {
        const made = bundle[name];
        state.update(name).update(made.type === 'chunk' ? made.code : made.source);
      }
      const template = readFileSync(join(ROOT, 'src/app/worker/offline.js'), 'utf8');
      const source = template
        .replace('__CACHE__', `shell-${state.digest('hex').slice(0, 16)}`)
        .replace("['__FILES__']", JSON.stringify(names));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}
