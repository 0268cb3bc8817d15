/** The terms of a report with their plain glosses, for readers of other trades. */

import { gloss, label, type TermId } from '../../shared/glossary.ts';

/** Those that a report uses and that do not explain themselves, in the order in which they come. */
const REPORT_TERMS: readonly TermId[] = [
  'transect',
  'segment',
  'stratum',
  'surveyedHabitat',
  'searchedArea',
  'cluster',
  'detection',
  'primaryObserver',
  'secondaryObserver',
  'detectionProbability',
  'detectionFunction',
  'perpendicularDistance',
  'density',
  'abundance',
  'countDistribution',
  'overdispersion',
  'transectEffect',
  'confidenceInterval',
  'standardError',
  'cv',
  'upperLimit',
  'designBasedEstimate',
  'bootstrap',
  'aicc',
  'akaikeWeight',
];

/** Throws for a term without a gloss: it would be a line that says nothing. */
export function termList(ids: readonly TermId[] = REPORT_TERMS): [name: string, value: string][] {
  return ids.map((id) => {
    const text = gloss(id);
    if (text === null) throw new Error(`got "${id}", expected a term with a gloss`);
    return [label(id), text];
  });
}
