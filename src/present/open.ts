/** What is said about the open files: what they could not hold, and which there are. */

import { extent } from '../../shared/extent.ts';
import { type Finding, noticeAt } from '../../shared/findings.ts';
import { terms } from '../../shared/glossary.ts';
import type { BedParts, Credits } from '../../shared/open.ts';
import type { SurveyResult } from '../../shared/result.ts';

/** What is left out of the files or not known, each with what was done about it. */
export function openNotices(
  { bed, lake }: Pick<SurveyResult, 'bed' | 'lake'>,
  { patches }: BedParts,
  { authors, taxon, license }: Credits,
): Finding[] {
  const notices: Finding[] = [];
  const note = (table: string, code: string, message: string) =>
    notices.push(noticeAt({ table }, code, message));
  if (bed === null)
    note(
      'grid.tif',
      'no-lake-for-export',
      `without the mapped bed of the lake there is no grid, and survey.gpkg has no ${terms('stratum')} (outline, substrate and depth expected)`,
    );
  else if (patches === null && (lake.substrate?.length ?? 0) > 0)
    note(
      'survey.gpkg',
      'no-numbers-by-polygon',
      `areas have no numbers of their own in this survey: the layer substrate is without ${terms('density')}`,
    );
  if (authors.length === 0)
    note(
      'citation.cff',
      'nobody-named',
      'nobody was named as author: it says "anonymous" (--author expected)',
    );
  if (taxon === null)
    note(
      'darwin-core.zip',
      'taxon-not-named',
      'the survey does not say which mussels: the records say class Bivalvia, which all mussels are (--taxon expected)',
    );
  if (license === null)
    note(
      'datapackage.json',
      'no-licence',
      'no licence was named, so others may not assume one; it is left out (--license expected)',
    );
  return notices;
}

/** A line a file with its size. */
export function openText(files: readonly { name: string; bytes: number }[]): string {
  const [, wide] = extent(files.map(({ name }) => name.length));
  return files.map(({ name, bytes }) => `${name.padEnd(wide)}  ${sizeOf(bytes)}\n`).join('');
}

function sizeOf(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  const [value, unit] = bytes < 1e6 ? [bytes / 1e3, 'kB'] : [bytes / 1e6, 'MB'];
  return `${value < 10 ? value.toFixed(1) : value.toFixed(0)} ${unit}`;
}
