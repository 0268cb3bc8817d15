/**
 * Of libraries the page is built with what it needs of them, and with that once: what surveys do not come in is left out, and what
 * two parts of a library each bring along is taken from one of them.
 */

import { join } from 'node:path';
import type { Plugin } from 'vite';
import { PROJECTIONS } from './src/app/worker/projections.ts';

const PACKAGES = join(import.meta.dirname, 'node_modules');
const MATRIX_SOURCES = join(PACKAGES, 'ml-matrix/src/index.js');
const DATABASE = join(PACKAGES, 'sql.js/dist');

/**
 * proj4 takes its projections from a module that is meant to be replaced: only those that surveys come in are built in. What
 * it knows of two other notations is left out as well: our coordinate systems are PROJ strings. Two decoders
 * of rasters each bring the same decompression: that of the one does all that the other's does. The matrix library is taken from the
 * sources that it brings along, of which what nobody asks for is left out.
 */
export function neededParts(): Plugin {
  const projections = '\0needed-projections';
  const leftOut = '\0left-out-notation';
  return {
    name: 'needed-parts',
    enforce: 'pre',
    resolveId(source, importer) {
      if (source === 'ml-matrix') return MATRIX_SOURCES;
      if (source === 'zstddec') return this.resolve('zstddec/stream', importer);
      if (!importer?.includes('/proj4/lib/')) return null;
      if (source === '../projs') return projections;
      return source === 'mgrs' || source === 'wkt-parser' ? leftOut : null;
    },
    load(id) {
      if (id === projections) return projectionsModule();
      if (id !== leftOut) return null;
      const refuse = "() => { throw new Error('got WKT or MGRS, expected a PROJ string'); }";
      return `const refuse = ${refuse}; export { refuse as forward, refuse as toPoint, refuse as default };`;
    },
  };
}

function projectionsModule(): string {
  const folder = join(PACKAGES, 'proj4/lib/projections');
  const imports = PROJECTIONS.map(
    (name) => `import ${name} from ${JSON.stringify(join(folder, `${name}.js`))};`,
  );
  const adds = PROJECTIONS.map((name) => `proj4.Proj.projections.add(${name});`);
  return `${imports.join('\n')}\nexport default (proj4) => {${adds.join('')}};`;
}

/**
 * Where the page can fetch, the database library's WebAssembly is a file of its own, a third smaller than as text inside of a script.
 * Whoever asks for the library does so in the same words everywhere.
 */
export function databaseAsFile(): Plugin {
  const made = '\0database-as-file';
  return {
    name: 'database-as-file',
    enforce: 'pre',
    resolveId: (source) => (source === 'sql.js/dist/sql-wasm-inline.js' ? made : null),
    load(id) {
      if (id !== made) return null;
      const program = JSON.stringify(join(DATABASE, 'sql-wasm-browser.js'));
      const address = JSON.stringify(`${join(DATABASE, 'sql-wasm-browser.wasm')}?url`);
      return [
        `import start from ${program};`,
        `import address from ${address};`,
        'export default () => start({ locateFile: () => address });',
      ].join('\n');
    },
  };
}

/** Controls, popups and a mark of the own place: the map has none of them. */
const NOT_ON_THE_MAP = /maplibregl-(?:ctrl|popup|user-location)/;

/** Most of the map library's style sheet is for what it can show and is not shown here: rules for that alone are left out. */
export function styleOfWhatIsShown(): Plugin {
  return {
    name: 'style-of-what-is-shown',
    enforce: 'pre',
    transform(code, id) {
      if (!/maplibre-gl\/dist\/maplibre-gl\.css$/.test(id)) return null;
      return code.replace(/([^{}]+)\{[^{}]*\}/g, (rule, selectors: string) =>
        selectors.split(',').every((one) => NOT_ON_THE_MAP.test(one)) ? '' : rule,
      );
    },
  };
}
