/** What a result was made from and with: its files, by which it can be made again, and the version. */

import type { SurveyResult } from '../../shared/result.ts';
import { formatCount } from '../../shared/units.ts';
import { VERSION } from '../../shared/version.ts';

export interface Source {
  version: string;
  /** how the same numbers are made again */
  rebuild: string;
  files: { file: string; bytes: string; sha256: string }[];
}

export function readSource({ inputs }: Pick<SurveyResult, 'inputs'>): Source {
  return {
    version: VERSION,
    rebuild: `Made by Shoalwise ${VERSION}. The same version gives the same numbers from the same files; a file is the same when its SHA-256 digest is (sha256sum on Linux, shasum -a 256 on macOS, certutil -hashfile on Windows). estimate.json holds this list too, warnings.csv every notice.`,
    files: inputs.map(({ file, bytes, sha256 }) => ({ file, bytes: formatCount(bytes), sha256 })),
  };
}

/** `Quillback Lake, 2026`; `Quillback Lake, 2025 and 2026`: so that a caption can stand alone. */
export function captionPlace({
  estimate,
  survey,
}: Pick<SurveyResult, 'estimate' | 'survey'>): string {
  const years = [...new Set(survey.transects.map((t) => t.date.slice(0, 4)))].sort();
  const [first, last] = [years[0], years.at(-1)];
  const when = first === last ? first : `${first} to ${last}`;
  return when === undefined ? estimate.lake : `${estimate.lake}, ${when}`;
}
