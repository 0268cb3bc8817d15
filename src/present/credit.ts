/** What stands under a picture that leaves the page: which lake, surveyed when, drawn by which version. */

import type { Analysis } from '../../shared/analysis.ts';
import type { Survey } from '../../shared/survey.ts';
import { VERSION } from '../../shared/version.ts';
import { daysInFull, searched } from './searched.ts';

/** `Quillback Lake, surveyed 2026-07-01 to 2026-07-04. Drawn by Shoalwise 0.1.0.` */
export function creditLine({
  analysis,
  survey,
}: {
  analysis: Pick<Analysis, 'lake'>;
  survey: Survey;
}): string {
  const { days } = searched(survey, []);
  const when = days.length === 0 ? '' : `, surveyed ${daysInFull(days)}`;
  return `${analysis.lake}${when}. Drawn by Shoalwise ${VERSION}.`;
}
