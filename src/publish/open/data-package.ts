/** datapackage.json: what lies in the folder, file by file, and what the columns of its tables mean (Data Package 2.0). */

import type { Credits } from '../../../shared/open.ts';
import { dataPackage } from '../../../shared/table-schema.ts';
import { TABLES } from '../../../shared/tables.ts';

/** By which an earlier export is recognised. */
export const EXPORT_SCHEMA = 'shoalwise/export/1';

export interface PackedFile {
  name: string;
  bytes: number;
  /** SHA-256, hexadecimal */
  sha256: string;
}

const KINDS: Record<string, { format: string; mediatype: string }> = {
  csv: { format: 'csv', mediatype: 'text/csv' },
  geojson: { format: 'geojson', mediatype: 'application/geo+json' },
  tif: { format: 'tif', mediatype: 'image/tiff' },
  json: { format: 'json', mediatype: 'application/json' },
  gpkg: { format: 'gpkg', mediatype: 'application/geopackage+sqlite3' },
  zip: { format: 'zip', mediatype: 'application/zip' },
  cff: { format: 'yaml', mediatype: 'application/yaml' },
};

/** What files other than tables are. */
const MEANINGS: Record<string, string> = {
  'outline.geojson': 'The water’s edge, islands as holes.',
  'substrate.geojson': 'Polygons of the bed by substrate.',
  'depth.geojson': 'Depths of the lake.',
  'depth.tif': 'Depths of the lake, in metres.',
  'treatments.geojson': 'Treatment areas that were thought of.',
  'keep-out.geojson': 'Places where no treatment area may be proposed.',
  'no-dive.geojson':
    'Places where nobody may dive: outside of the surveyed habitat, and no transect is planned there.',
  'analysis.json': 'The choices of the analysis.',
  'variants.json': 'The analysis with other choices, kept under names.',
  'import.json': 'How files of others became this survey: questions, evidence and answers.',
  'survey.gpkg': 'Layers for a GIS: what was searched and recorded, and what was estimated.',
  'grid.tif': 'Estimated density by cell of a grid, with its coefficient of variation.',
  'darwin-core.zip': 'What was searched and counted, as a Darwin Core archive.',
  'citation.cff': 'How to cite this data set.',
};

/**
 * The text of the file.
 * @param files in the order in which they are listed
 * @param at when it was written, ISO 8601
 */
export function dataPackageJson(
  lake: string,
  files: readonly PackedFile[],
  credits: Credits,
  at: string,
): string {
  const { resources, ...head } = dataPackage(lake, new Set(files.map(({ name }) => name)));
  const listed = files.map(({ name, bytes, sha256 }) => {
    const table = resources.find(({ path }) => path === name);
    const size = { bytes, hash: `sha256:${sha256}` };
    if (table !== undefined) {
      const { schema, ...rest } = table;
      return { ...rest, ...size, schema };
    }
    const ending = name.slice(name.lastIndexOf('.') + 1);
    return {
      name: name.replace('.', '-'),
      path: name,
      scheme: 'file',
      ...KINDS[ending],
      ...(MEANINGS[name] === undefined ? {} : { description: MEANINGS[name] }),
      ...size,
    };
  });
  const missing = TABLES.find(({ file }) => !files.some(({ name }) => name === file));
  if (missing !== undefined) throw new Error(`got no ${missing.file}, expected it in the package`);
  const content = {
    ...head,
    schema: EXPORT_SCHEMA,
    created: at,
    ...(credits.license === null ? {} : { licenses: [{ name: credits.license }] }),
    ...(credits.authors.length === 0
      ? {}
      : { contributors: credits.authors.map((title) => ({ title, roles: ['author'] })) }),
    resources: listed,
  };
  return `${JSON.stringify(content, null, 2)}\n`;
}
