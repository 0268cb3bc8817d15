/** Treated against untreated, before and after (METHOD.md: Two surveys of one lake). */

import {
  changeOf,
  jointDegrees,
  jointTotals,
  lessTotals,
  logNormalQuantity,
  pairModels,
  type SeasonPairs,
  seasonTotals,
  withTreatedArea,
} from '../../models/index.ts';
import type { TreatedChange } from '../../shared/change.ts';
import type { Bed } from '../../shared/survey.ts';
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
    why,
    why_survey: survey,
  });
  if (bed === null || treatedM2 === 0 || untreatedM2 === 0) return none('off-common-ground', null);
  const seasons: SurveyedSeason[] = [];
  for (const season of [input.before, input.after]) {
    const rows = {
      ...season.rows,
      segments: season.rows.segments.map((s, i) => ({
        ...s,
        treated: treated.isInside(season.segments[i]),
      })),
    };
    const made = withTreatedArea(rows, season.analysis, season.members);
    if (!made.ok) return none(made.why.cause, season.survey);
    seasons.push({ ...season, rows, members: made.members });
  }
  const [before, after] = seasons;
  const { pairs } = pairModels(
    before,
    after,
    detection.used ? personsOf(input.before, input.after, matched) : null,
  );
  const named = namesOn(ground, matched);
  const totals = seasons.flatMap((season, s) => {
    const on = (own: Bed, isTreated: boolean) =>
      seasonTotals(
        season,
        s as 0 | 1,
        pairs,
        habitatsOf(own.habitats, season.rows.classNames, named[s], isTreated),
        own.pieces,
        [() => true],
      )[0];
    return [on(bed, true), lessTotals(on(ground.bed, false), on(bed, false))];
  });
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
  return {
    ...none(null, null),
    treated: { before: quantity(0), after: quantity(2), change: change([-1, 0, 1, 0]) },
    untreated: { before: quantity(1), after: quantity(3), change: change([0, -1, 0, 1]) },
    effect: change([-1, 1, 1, -1]),
  };
}
