/**
 * What is wrong in the tables → repairs to choose from: changes of cells, each with its evidence. Nothing is changed here. Where
 * no repair can be honest, as for "20+" or a row that is missing, that is said instead. One file a kind of slip.
 */

import { findingPlace } from '../../shared/findings.ts';
import type { Repair } from '../../shared/repairs.ts';
import { bearingSlips } from './bearings.ts';
import { cellSlips } from './cells.ts';
import { makeDesk, type Proposal, type RepairInput, type Rule } from './desk.ts';
import { countedTwice } from './double-counts.ts';
import { breaksOutOfOrder, firstNotAtZero } from './habitat.ts';
import { labelsLikeDates, labelsMisspelt, labelsTwice } from './labels.ts';
import { pastRopeEnd } from './past-end.ts';
import { detectionRolesMissing, observersMissing } from './roles.ts';
import { depthJumps, depthsInFeet, lengthInFeet, offsetsInCentimetres } from './units.ts';
import { waypointSlips } from './waypoints.ts';

export type { RepairInput } from './desk.ts';
export { differencesOf } from './differences.ts';

const RULES: readonly Rule[] = [
  cellSlips,
  labelsLikeDates,
  labelsTwice,
  labelsMisspelt,
  observersMissing,
  detectionRolesMissing,
  waypointSlips,
  bearingSlips,
  lengthInFeet,
  pastRopeEnd,
  breaksOutOfOrder,
  firstNotAtZero,
  depthsInFeet,
  depthJumps,
  offsetsInCentimetres,
  countedTwice,
];

/** In the order of the kinds of slips; each answers findings that are among those given. */
export function proposeRepairs(input: RepairInput): Repair[] {
  const desk = makeDesk(input);
  const all = onceEach(RULES.flatMap((rule) => rule(desk)));
  const answered = new Set(all.flatMap(({ edits, answers }) => (edits.length > 0 ? answers : [])));
  const ids = new Map<string, number>();
  return all
    .filter(({ edits, answers }) => edits.length > 0 || !answers.every((f) => answered.has(f)))
    .map(({ answers, certain, picture, ...rest }) => {
      const [first] = answers;
      const place = first === undefined ? '' : findingPlace(first);
      const times = (ids.get(place) ?? 0) + 1;
      ids.set(place, times);
      return {
        ...rest,
        id: `${place} ${first?.code} ${times}`,
        certain: (certain ?? false) && rest.edits.length > 0,
        picture: picture ?? { kind: 'cells' },
        answers: answers.map(({ code, table, row, column }) => ({ code, table, row, column })),
      };
    });
}

/** Two ways to the same changes are one repair, for the findings of both. */
function onceEach(proposals: readonly Proposal[]): Proposal[] {
  const byEdits = new Map<string, Proposal>();
  proposals.forEach((proposal, i) => {
    const key = proposal.edits.length === 0 ? String(i) : JSON.stringify(proposal.edits);
    const before = byEdits.get(key);
    const answers = [...(before?.answers ?? []), ...proposal.answers];
    byEdits.set(key, { ...(before ?? proposal), answers: [...new Set(answers)] });
  });
  return [...byEdits.values()];
}
