/** The first words on an open survey: what it holds, or what stops the estimate and where that is. */

import type { Finding } from '../../shared/findings.ts';
import { counted, label, term, terms } from '../../shared/glossary.ts';
import type { Segment, Survey } from '../../shared/survey.ts';
import { formatArea, formatCount, type UnitSystem } from '../../shared/units.ts';
import { listed } from '../../shared/words.ts';
import { searched } from './searched.ts';

export interface SurveyInput {
  survey: Survey;
  segments: readonly Pick<Segment, 'areaM2'>[];
  findings: readonly Finding[];
  /** no error stops the estimate */
  ok: boolean;
}

export function surveyOpening(
  { survey, segments, findings, ok }: SurveyInput,
  units: UnitSystem = 'metric',
): { sentence: string; lead: string } {
  const errors = findings.filter((f) => f.severity === 'error');
  if (!ok)
    return {
      sentence: `${counted(errors.length, formatCount(errors.length), 'error')} ${errors.length === 1 ? 'stops' : 'stop'} the estimate.`,
      lead: `In ${placesOf(errors)}. ${label('fix')} them here, or in the files and open them again.`,
    };
  const { transects, clusters, mussels, areaM2 } = searched(survey, segments);
  const several = counted(transects, formatCount(transects), 'transect');
  if (clusters === 0)
    return {
      sentence: `${several} searched, nothing detected.`,
      lead: 'Not detected is not the same as not there: the Lake station says how many could have been missed.',
    };
  const notices = findings.length - errors.length;
  const read =
    notices === 0
      ? `There are no ${terms('notice')}.`
      : `${counted(notices, formatCount(notices), 'notice')} to read below.`;
  return {
    sentence: `${several}, ${counted(clusters, formatCount(clusters), 'cluster')}: nothing stands in the way of the estimate.`,
    lead: `${counted(mussels, formatCount(mussels), 'mussel')} counted on a ${term('searchedArea')} of ${formatArea(areaM2, units)}. ${read}`,
  };
}

/** `transects.csv (2) and detections.csv (1)`; a single file without its number. */
function placesOf(errors: readonly Finding[]): string {
  const files = new Map<string, number>();
  for (const { table } of errors) files.set(table, (files.get(table) ?? 0) + 1);
  const places = [...files].map(([file, n]) =>
    files.size === 1 ? file : `${file} (${formatCount(n)})`,
  );
  return listed(places, 'and');
}
