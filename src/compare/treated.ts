/** Treated against untreated, before and after (METHOD.md: Two surveys of one lake). */

import {
  changeOf,
  jointDegrees,
  lessTotals,
  outsideAlone,
  type PartOptions,
  pairModels,
  partLimit,
  type SeasonPairs,
  seasonTotals,
  sumOfTotals,
  withTreatedArea,
} from '../../models/further.ts';
import { jointTotals, logNormalQuantity } from '../../models/index.ts';
import type { ChangeLimit, TreatedChange } from '../../shared/change.ts';
import type { Quantity } from '../../shared/estimate.ts';
import type { Bed } from '../../shared/survey.ts';
import { limitOf, onGround, widestOf } from './empty-search.ts';
import { habitatsOf, insideM2 } from './ground.ts';
import { intervalOf, numbersOf } from './rows.ts';
import {
  type CompareInput,
  degreesOf,
  type Ground,
  namesOn,
  personsOf,
  relativeVariance,
  type SurveyedSeason,
} from './seasons.ts';

/** Detection is in common here where it is for the whole: the factor changes the density alone. */
export function treatedChange(
  input: CompareInput,
  treated: NonNullable<Ground['treated']>,
  { detection }: SeasonPairs,
  level: number,
): TreatedChange {
  const { ground, matched } = input;
  const bed = treated.bed;
  const treatedM2 = bed === null ? 0 : insideM2(bed);
  const untreatedM2 = Math.max(0, insideM2(ground.bed) - treatedM2);
  const none = (why: TreatedChange['why'], survey: string | null): TreatedChange => ({
    areas: treated.names,
    treated_m2: treatedM2,
    untreated_m2: untreatedM2,
    treated: null,
    untreated: null,
    effect: null,
    together: null,
    limit: null,
    why,
    why_survey: survey,
  });
  if (bed === null || treatedM2 === 0 || untreatedM2 === 0) return none('off-common-ground', null);
  const seasons: SurveyedSeason[] = [];
  let empty: SurveyedSeason | null = null;
  for (const season of [input.before, input.after]) {
    const rows = {
      ...season.rows,
      segments: season.rows.segments.map((s, i) => ({
        ...s,
        treated: treated.isInside(season.segments[i]),
      })),
    };
    const made = withTreatedArea(rows, season.analysis, season.members);
    if (made.ok) {
      seasons.push({ ...season, rows, members: made.members });
      continue;
    }
    const outside =
      season === input.after &&
      made.why.cause === 'nothing-detected-inside' &&
      rows.clusters.length > 0
        ? outsideAlone(rows, season.analysis, season.members)
        : null;
    if (outside === null || outside.members.length === 0)
      return none(made.why.cause, season.survey);
    empty = { ...season, rows };
    seasons.push({ ...season, ...outside });
  }
  const [before, after] = seasons;
  const { pairs } = pairModels(
    before,
    after,
    detection.used ? personsOf(input.before, input.after, matched) : null,
  );
  const named = namesOn(ground, matched);
  const on = (s: 0 | 1, own: Bed, isTreated: boolean, of?: 'clusters') =>
    seasonTotals(
      seasons[s],
      s,
      pairs,
      habitatsOf(own.habitats, seasons[s].rows.classNames, named[s], isTreated),
      own.pieces,
      [() => true],
      of,
    )[0];
  const elsewhere = (s: 0 | 1, of?: 'clusters') =>
    lessTotals(on(s, ground.bed, false, of), on(s, bed, false, of));
  const totals = ([0, 1] as const).flatMap((s) => [on(s, bed, true), elsewhere(s)]);
  const joint = jointTotals(totals);
  const errorOf = (i: number) => ({
    cv2: relativeVariance(joint, i),
    df: degreesOf(seasons[i < 2 ? 0 : 1]),
  });
  const quantity = (i: number) =>
    logNormalQuantity(
      joint.estimates[i],
      Math.sqrt(Math.max(0, joint.covariance[i * 4 + i])),
      intervalOf(level, errorOf(i).df),
    );
  const change = (signs: number[]) =>
    numbersOf(
      changeOf(
        joint,
        signs,
        level,
        jointDegrees(signs.flatMap((sign, i) => (sign === 0 ? [] : [errorOf(i)]))),
      ),
    );
  const both = ([0, 1] as const).map((s) =>
    s === 1 && empty !== null ? totals[3] : sumOfTotals(totals[2 * s], totals[2 * s + 1]),
  );
  const whole = jointTotals(both);
  const together = numbersOf(
    changeOf(
      whole,
      [-1, 1],
      level,
      jointDegrees(
        seasons.map((season, i) => ({ cv2: relativeVariance(whole, i), df: degreesOf(season) })),
      ),
    ),
  );
  const untreated = { before: quantity(1), after: quantity(3), change: change([0, -1, 0, 1]) };
  if (empty !== null) {
    const searched = onGround(empty, before, 1, matched, ground).flatMap(({ row, classes }) =>
      row.treated === true
        ? [{ row, habitat: { classes, plantCover: row.plantCover, treated: true } }]
        : [],
    );
    const widened = widestOf([before, after], level);
    const limitBy = (against: PartOptions['elsewhere']): ChangeLimit | null => {
      if (widened === null) return null;
      const options = { level, widened, elsewhere: against };
      const found = partLimit([before, after], pairs, 1, searched, options);
      return found && limitOf(found, 1);
    };
    const [own, effect] = [
      limitBy(null),
      limitBy([elsewhere(0, 'clusters'), elsewhere(1, 'clusters')]),
    ];
    if (own === null || effect === null) return none('nothing-detected-inside', empty.survey);
    return {
      ...none(null, null),
      treated: { before: quantity(0), after: NOTHING, change: null },
      untreated,
      together,
      limit: { treated: own, effect },
    };
  }
  return {
    ...none(null, null),
    treated: { before: quantity(0), after: quantity(2), change: change([-1, 0, 1, 0]) },
    untreated,
    together,
    effect: change([-1, 1, 1, -1]),
  };
}

/** Nothing was detected: the limit stands beside it. */
const NOTHING: Quantity = { estimate: 0, se: null, cv: null, lower: 0, upper: null };
