/**
 * Many lakes with the detection of their observers in common: one likelihood in which whoever dived on several lakes has one
 * detection, and each lake all else of its own (METHOD.md: Two surveys of one lake).
 */

import { type Pieces, sumPieces, totalOf } from '../abundance.ts';
import type { SurveyRows } from '../data.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { bilinearForm } from '../numbers/solve.ts';
import { type MappedHabitat, predictor } from '../predict.ts';
import { amongJoint, fitTogether, type JointPlaces, partOf, sideBySide } from './joint-fit.ts';
import { detectionParameters, type Persons } from './shared-detection.ts';

/** A lake's best model and the bed that it is carried to. */
export interface ProgrammeLake {
  rows: SurveyRows;
  fit: Fit;
  habitats: readonly MappedHabitat[];
  pieces: Pieces;
}

export interface SharedProgramme {
  used: boolean;
  /** numbers of the persons whose detection was tried in common */
  persons: number[];
  aiccShared: number | null;
  aiccSeparate: number | null;
  /** of all lakes, by the models that were used */
  mussels: number;
  se: number;
}

/** More parameters make the search too long: a dense matrix of them is turned in each step. */
export const MOST_PARAMETERS = 1500;

/**
 * @param persons behind the observers of each lake: one number is one person
 * @returns null where nobody's detection is estimated on two lakes
 * @throws RangeError where there are too many parameters
 */
export function sharedProgramme(
  lakes: readonly ProgrammeLake[],
  persons: Persons,
): SharedProgramme | null {
  const common = commonPlaces(
    lakes.map(({ fit }) => fit),
    persons,
  );
  if (common === null) return null;
  if (common.places.count > MOST_PARAMETERS)
    throw new RangeError(
      `got ${common.places.count} parameters of all lakes, expected at most ${MOST_PARAMETERS}`,
    );
  const separate = sideBySide(lakes);
  const shared = fitTogether(lakes, common.places);
  const used =
    shared !== null &&
    shared.aicc !== null &&
    (separate.aicc === null || shared.aicc < separate.aicc);
  const joint = used ? shared : separate;
  let mussels = 0;
  const gradient = new Float64Array(joint.count);
  for (const [i, lake] of lakes.entries()) {
    const fit = partOf(lake, joint, i);
    const p = predictor(lake.rows, fit);
    const densities = lake.habitats.map((h) => p.habitat(h));
    const total = totalOf(sumPieces(lake.pieces, densities, p), densities, p, fit.covariance);
    mussels += total.mussels;
    amongJoint(total.gradient, joint, i).forEach((g, k) => {
      gradient[k] += g;
    });
  }
  const variance = bilinearForm(gradient, joint.covariance, gradient);
  return {
    used,
    persons: common.persons,
    aiccShared: shared?.aicc ?? null,
    aiccSeparate: separate.aicc,
    mussels,
    se: Math.sqrt(Math.max(0, variance)),
  };
}

/**
 * Joint places of many fits: an intercept of the same persons on the same design is one parameter where the same covariates
 * stand beside it, and so are these.
 */
function commonPlaces(
  fits: readonly Fit[],
  persons: Persons,
): { places: JointPlaces; persons: number[] } | null {
  const placeOf = new Map<string, number>();
  const lakesOf = new Map<string, { lakes: number; persons: number[] }>();
  let count = 0;
  const places = fits.map((fit, lake) => {
    const { intercepts, slopes } = detectionParameters(fit, persons[lake]);
    const beside = JSON.stringify(slopes.map(({ term }) => term));
    const keys = new Map<number, string>();
    for (const { at, key, persons: who } of intercepts) {
      keys.set(at, `${beside} ${key}`);
      const met = lakesOf.get(key) ?? { lakes: 0, persons: who };
      lakesOf.set(key, { ...met, lakes: met.lakes + 1 });
    }
    if (intercepts.length > 0) for (const { at, term } of slopes) keys.set(at, `${beside} ${term}`);
    return Int32Array.from(fit.estimates, (_, i) => {
      const key = keys.get(i);
      if (key === undefined) return count++;
      const known = placeOf.get(key);
      if (known !== undefined) return known;
      placeOf.set(key, count);
      return count++;
    });
  });
  const parameters = fits.reduce((sum, fit) => sum + fit.estimates.length, 0);
  if (count === parameters) return null;
  const shared = [...lakesOf.values()].filter(({ lakes }) => lakes > 1);
  return {
    places: { count, places },
    persons: [...new Set(shared.flatMap((s) => s.persons))].sort((a, b) => a - b),
  };
}
