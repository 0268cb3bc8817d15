import { TREATMENT_CAUTION } from '../present/treatment-caution.ts';

/** What every printed result carries with it. */
export const CAUTIONS: readonly string[] = [
  'The number holds for the habitats and depths that were searched. Bed that was mapped but not searched, and bed that was not mapped, is listed above and is not in it.',
  'Where nothing was detected, mussels may still live: some are missed, and small ones are hard to see.',
  'The maps of outline, substrate and depth are taken as they are; their errors are not in the intervals.',
  TREATMENT_CAUTION,
  'Diving: cold, entanglement, boats and poor visibility are real dangers. The dive plan, the dive safety officer and local rules come first; nothing here sets a dive limit.',
];
