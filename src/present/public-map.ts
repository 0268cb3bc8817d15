/**
 * What the public is told of a survey: the number with its depth band, the places that were searched and what was detected
 * at them, and the lake's shape. Names of transects and of observers are not in it, nor any longitude or latitude.
 */

import type { PublicFacts, PublicNumber } from '../../shared/public-map.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Spread } from '../../shared/units.ts';
import { sampledBand } from './depths.ts';
import { publicPlaces } from './public-places.ts';
import { type PublicShapes, publicShapes } from './public-shapes.ts';
import { searched } from './searched.ts';

export interface PublicMap {
  facts: PublicFacts;
  shapes: PublicShapes;
}

export type PublicInput = Pick<
  SurveyResult,
  'estimate' | 'analysis' | 'lake' | 'plane' | 'placed' | 'bed' | 'surface' | 'survey' | 'domain'
>;

/** A smaller share of the surveyed habitat is not worth a sentence. */
const LEAST_FAR_SHARE = 0.01;
/** Lakes west of this longitude write numbers and dates as the Americas do. */
const AMERICAS_WEST_OF = -30;

/**
 * Null without the lake's outline: there is nothing to draw on.
 * @param coarseM side of the squares in which places are shown, m; null = where they are
 */
export function publicMap(result: PublicInput, coarseM: number | null): PublicMap | null {
  const shapes = publicShapes(result, coarseM);
  if (shapes === null) return null;
  const { estimate, analysis, survey, plane } = result;
  const { far_from_transects: far, data } = estimate;
  const facts: PublicFacts = {
    lake: estimate.lake,
    americas: plane.lon0 < AMERICAS_WEST_OF,
    number: numberOf(result),
    part: partOf(result),
    farShare: far !== null && far.area_share >= LEAST_FAR_SHARE ? far.area_share : null,
    missed: estimate.detection?.fixed != null,
    level: analysis.interval,
    sampled: sampledBand(survey),
    effort: {
      lines: survey.transects.length,
      areaM2: data.area_searched_m2,
      days: searched(survey, []).days,
    },
    byDepth: byDepth(result),
    depthBreaksM: shapes.depths.map((d) => d.fromM),
    deepestM: shapes.deepestM,
    unitM: shapes.frame.unitM,
    coarseM,
    places: publicPlaces(result, shapes.frame, coarseM),
  };
  return { facts, shapes };
}

function numberOf({ estimate }: PublicInput): PublicNumber {
  const { abundance, data } = estimate;
  if (data.detections === 0)
    return { of: 'nothing', upperClusters: abundance?.clusters.upper ?? null };
  if (abundance === null) return { of: 'counted', mussels: data.mussels_counted };
  return abundance.mussels === null
    ? { of: 'clusters', ...spread(abundance.clusters) }
    : { of: 'mussels', ...spread(abundance.mussels) };
}

function partOf({ estimate: { abundance }, domain }: PublicInput): PublicFacts['part'] {
  if (abundance === null) return null;
  return {
    areaM2: abundance.area_m2,
    restM2: abundance.outside_area_m2 + abundance.unmapped_area_m2,
    fromM: domain.depthFromM,
    toM: domain.depthToM,
  };
}

function byDepth({ estimate: { margins, data }, domain }: PublicInput): PublicFacts['byDepth'] {
  if (margins === null || data.detections === 0) return [];
  return margins.by_depth.flatMap(({ mussels, ...row }) =>
    mussels === null
      ? []
      : [
          {
            fromM: Math.max(row.depth_from_m, domain.depthFromM),
            toM: Math.min(row.depth_to_m, domain.depthToM),
            areaM2: row.area_m2,
            mussels: spread(mussels),
          },
        ],
  );
}

const spread = ({ estimate, se, lower, upper }: Spread): Spread => ({ estimate, se, lower, upper });
