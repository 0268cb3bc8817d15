/**
 * The change between two surveys on their common ground: whole, by substrate and depth, by area, treated against untreated
 * (METHOD.md: Two surveys of one lake).
 */

import {
  type CellChange,
  cellChange,
  changeOf,
  jointDegrees,
  pairModels,
  type SeasonPairs,
  seasonTotals,
} from '../../models/further.ts';
import { jointTotals, logNormalQuantity } from '../../models/index.ts';
import type { ChangeRow, DetectionInCommon, PairChange } from '../../shared/change.ts';
import type { Bed } from '../../shared/survey.ts';
import { type EmptyPair, emptyPair, partLimits } from './empty-search.ts';
import { type ClassMatch, habitatsOf, insideM2 } from './ground.ts';
import type { Matched } from './matching.ts';
import { intervalOf, numbersOf, type Part, partsOf } from './rows.ts';
import {
  type CompareInput,
  degreesOf,
  type Ground,
  namesOn,
  personsOf,
  relativeVariance,
  type SurveyedSeason,
} from './seasons.ts';
import { treatedChange } from './treated.ts';

export { commonDomain, habitatsOf, insideM2, reversed } from './ground.ts';
export { type Matched, matchSeasons, NONE, type SeasonNames } from './matching.ts';
export type { CompareInput, Ground, SurveyedSeason } from './seasons.ts';

/**
 * All intervals are at the later survey's level.
 * @param withCells the change of each cell of the common ground, too, for a map
 */
export function compareSeasons(
  input: CompareInput,
  withCells = false,
): { change: PairChange; cells: CellChange | null } {
  const { before, after, matched, ground, otherGround } = input;
  const level = after.analysis.interval;
  const planted = [before, after].some((s) => s.analysis.detection.availability === 'planted');
  const nothing = emptyPair(input);
  const isApart = planted || nothing !== null;
  const found = pairModels(before, after, isApart ? null : personsOf(before, after, matched));
  const apart = partsOf(ground.bed, after.analysis.substrates);
  // a pass over a large bed takes its time: all parts in one
  const [whole, ...rows] = rowsOn(
    input,
    ground,
    found,
    [WHOLE, ...apart.strata, ...apart.bySubstrate, ...apart.byDepth],
    nothing,
  );
  const strata = rows.splice(0, apart.strata.length);
  const bySubstrate = rows.splice(0, apart.bySubstrate.length);
  const commonM2 = insideM2(ground.bed);
  const change: PairChange = {
    before: before.survey,
    after: after.survey,
    common: {
      area_m2: commonM2,
      share_before: commonM2 / before.surveyedM2,
      share_after: commonM2 / after.surveyedM2,
      depth_from_m: ground.depthFromM,
      depth_to_m: ground.depthToM,
      substrates: ground.substrates,
      same_maps: otherGround === null,
      with_earlier_maps:
        otherGround === null ? null : rowsOn(input, otherGround, found, [WHOLE])[0].change,
    },
    observers: Object.fromEntries(matched.observers),
    substrates: Object.fromEntries(matched.classes),
    detection: detectionOf(found, nothing !== null, planted, matched),
    nothing: nothing?.told ?? null,
    total: whole,
    strata,
    by_substrate: bySubstrate,
    by_depth: rows,
    areas: ground.areas.flatMap(({ name, bed, isInside }) => {
      if (bed === null || insideM2(bed) === 0) return [];
      const part = { ...WHOLE, holds: isInside };
      return [{ ...rowsOn(input, { ...ground, bed }, found, [part], nothing)[0], name }];
    }),
    treated: ground.treated === null ? null : treatedChange(input, ground.treated, found, level),
  };
  return { change, cells: withCells && nothing === null ? cellsOf(input, found) : null };
}

function cellsOf(
  { before, after, matched, ground }: CompareInput,
  { pairs }: SeasonPairs,
): CellChange {
  const [namedBefore, namedAfter] = namesOn(ground, matched);
  const { bed } = ground;
  return cellChange(
    [before, after],
    pairs,
    [
      habitatsOf(bed.habitats, before.rows.classNames, namedBefore, null),
      habitatsOf(bed.habitats, after.rows.classNames, namedAfter, null),
    ],
    bed.pieces,
    bed.frame.nx * bed.frame.ny,
  );
}

const WHOLE: Part = {
  substrate: null,
  depthFromM: null,
  depthToM: null,
  isIn: () => true,
  holds: () => true,
};

/** Parts of one bed in both seasons. @param nothing left out: no limit is asked for */
function rowsOn(
  input: CompareInput,
  ground: Ground,
  { pairs }: SeasonPairs,
  parts: readonly Part[],
  nothing: EmptyPair | null = null,
): ChangeRow[] {
  const { before, after, matched } = input;
  const limitOn = nothing === null ? partLimits({ ...input, ground }, pairs) : null;
  const { bed } = ground;
  const [namedBefore, namedAfter] = namesOn(ground, matched);
  const isIn = parts.map((p) => (sum: { habitat: number; band: number }) => p.isIn(bed, sum));
  const on = (season: SurveyedSeason, which: 0 | 1, named: ClassMatch | null) =>
    seasonTotals(
      season,
      which,
      pairs,
      habitatsOf(bed.habitats, season.rows.classNames, named, null),
      bed.pieces,
      isIn,
    );
  const [first, second] = [on(before, 0, namedBefore), on(after, 1, namedAfter)];
  const level = after.analysis.interval;
  return parts.map((part, i) => {
    const totals = jointTotals([first[i], second[i]]);
    const errors = [before, after].map((season, s) => ({
      cv2: relativeVariance(totals, s),
      df: degreesOf(season),
    }));
    const [n1, n2] = [before, after].map((season, s) =>
      logNormalQuantity(
        totals.estimates[s],
        Math.sqrt(totals.covariance[3 * s]),
        intervalOf(level, degreesOf(season)),
      ),
    );
    const limited =
      nothing?.limitOn(part.holds, nothing.empty === 0 ? second[i] : first[i]) ?? null;
    const limit = limitOn?.(part.holds, totals.estimates) ?? limited?.limit ?? null;
    const upTo = { estimate: 0, se: null, cv: null, lower: 0, upper: limited?.mussels ?? null };
    return {
      name: null,
      substrate: part.substrate,
      depth_from_m: part.depthFromM,
      depth_to_m: part.depthToM,
      area_m2: areaOf(bed, part),
      before: nothing?.empty === 0 ? upTo : n1,
      after: nothing?.empty === 1 ? upTo : n2,
      change: numbersOf(changeOf(totals, [-1, 1], level, jointDegrees(errors))),
      limit,
    };
  });
}

function areaOf(bed: Bed, part: Part): number {
  const { pieces } = bed;
  let sum = 0;
  for (let i = 0; i < pieces.count; i++)
    if (
      pieces.reason[i] === 0 &&
      part.isIn(bed, { habitat: pieces.habitat[i], band: pieces.band[i] })
    )
      sum += pieces.areaM2[i];
  return sum;
}

function detectionOf(
  { detection }: SeasonPairs,
  isNothing: boolean,
  planted: boolean,
  { observers }: Matched,
): DetectionInCommon {
  const named = [...observers].flatMap(([name, same]) => (same === null ? [] : [name]));
  return {
    used: detection.used,
    observers: detection.persons.length === 0 ? [] : named,
    aicc_shared: detection.aiccShared,
    aicc_separate: detection.aiccSeparate,
    why: isNothing ? 'nothing-detected' : planted ? 'planted-shells' : detection.why,
  };
}
