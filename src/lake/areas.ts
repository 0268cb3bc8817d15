/** Areas cut out of a lake that was laid out: their part of the mapped bed, and all of their water. */

import type { Analysis } from '../../shared/analysis.ts';
import type { AreaCutter } from '../../shared/areas.ts';
import { positionsFrom } from '../../shared/positions.ts';
import type { Bed, Domain, XYPolygon } from '../../shared/survey.ts';
import { layBed } from './bed.ts';
import type { DepthModel } from './depth.ts';
import { type LakeMaps, waterMaps } from './maps.ts';
import { planePolygon } from './rings.ts';

/** Less unmapped bed than this share of an area is rounding. */
const ALL_MAPPED = 1e-9;

/**
 * Null without an outline or a map of substrate.
 * @param divable takes bed where nobody may dive out of the surveyed habitat
 */
export function areaCutter(
  maps: LakeMaps | null,
  analysis: Analysis,
  depth: DepthModel,
  domain: Domain,
  divable: (bed: Bed | null) => Bed | null = (bed) => bed,
): AreaCutter | null {
  if (maps === null) return null;
  let water: LakeMaps | null = null;
  const lay = (own: LakeMaps, within?: readonly XYPolygon[]): Bed | null =>
    layBed(own, analysis, depth, domain, within && [...within]).bed;
  const waterOf = (bed: Bed | null, within?: readonly XYPolygon[]): Bed | null => {
    if (bed !== null && bed.unmappedM2 <= ALL_MAPPED * bed.outlineM2) return bed;
    water ??= waterMaps(maps);
    return lay(water, within);
  };
  return {
    cut(polygons) {
      const bed = lay(maps, polygons);
      const areas = polygons.map((rings) => planePolygon(rings.map(positionsFrom)).areaM2);
      return {
        polygonM2: areas.reduce((sum, area) => sum + area, 0),
        bed: divable(bed),
        water: waterOf(bed, polygons),
      };
    },
    water: (bed) => waterOf(bed),
  };
}
