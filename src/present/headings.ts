/** Headings of a result's parts, the same in report, terminal and page, in the order in which they are read. */

import { label, labels, term, terms } from '../../shared/glossary.ts';

export const HEADINGS = {
  searched: 'What was searched',
  detection: labels('detectionProbability'),
  density: `${label('density')} by ${term('depth')} and ${term('substrate')}`,
  answer: 'Answer',
  strata: `${label('abundance')} by ${term('stratum')}`,
  treatments: labels('treatmentArea'),
  exclusions: label('outsideHabitat'),
  whatIf: 'What if an assumption is wrong',
  ahead: 'Precision against effort',
  limits: `Nothing detected: ${term('upperLimit')}s`,
  models: 'Models compared',
  variants: `The analysis and its ${terms('variant')}`,
  checks: 'Checks on the model',
  methods: 'Methods, to copy',
  cautions: 'Cautions',
  terms: 'Terms',
} as const;

/** Of the report alone. */
export const REPORT_HEADINGS = {
  contents: 'Contents',
  before: 'Before the number is used',
  methods: 'Methods and choices',
  density: `${label('density')} and ${term('abundance')}`,
  habitat: `${label('surveyedHabitat')}, and what is outside`,
  source: 'Data and version',
} as const;
