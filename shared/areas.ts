/**
 * Treatment areas as numbers: areas.json (schema shoalwise/areas/1). A number that does not exist is null. Mussels are
 * those of the surveyed habitat within an area; area, depth and volume are those of all of its water.
 */

import type { Quantity } from './estimate.ts';
import type { Bed, LngLatPolygon, XYPolygon } from './survey.ts';

/** An area cut out of a lake that was laid out. */
export interface AreaCut {
  /** the polygons themselves, also on land; what two of them share counts twice */
  polygonM2: number;
  /** the mapped bed; null where the area is too large or too steep to be laid out */
  bed: Bed | null;
  /** everything within the outline by depth, whatever the bed is made of: all pieces may have habitat 0 */
  water: Bed | null;
}

export interface AreaCutter {
  /** @param polygons in the plane, closed rings; some milliseconds for an area of some hectares */
  cut(polygons: readonly XYPolygon[]): AreaCut;
  /** the water of the whole lake; as much work as laying out the lake where some of it is unmapped */
  water(bed: Bed): Bed | null;
}

/** A share from 0 to 1; no limits where there is no interval. */
export interface ShareOfTotal {
  share: number;
  lower: number | null;
  upper: number | null;
}

export interface AreaNumbers {
  /** within the outline */
  water_m2: number;
  water_acres: number;
  /** of the polygon, on land */
  off_lake_m2: number;
  surveyed_m2: number;
  /** water outside of the surveyed habitat, by reason; `unmapped` where no substrate was mapped */
  outside: { reason: string; area_m2: number }[];
  /** over the water whose depth is mapped; null without any */
  mean_depth_m: number | null;
  greatest_depth_m: number | null;
  /** its depth is not mapped, and it is in no volume */
  depth_unmapped_m2: number;
  /** whole column */
  volume_m3: number;
  volume_acre_feet: number;
  /** thickness of the layer; null where none was asked for */
  layer_m: number | null;
  /** of the top layer, and of a layer of the same thickness over the bed */
  layer_m3: number | null;
  layer_acre_feet: number | null;
  /** within the strips that observers searched */
  searched_m2: number;
  /** of the water; null without water */
  searched_share: number | null;
  mussels: Quantity | null;
  mussels_per_ha: Quantity | null;
  mussels_per_1000_m3: Quantity | null;
  /** of the mussels on all of the surveyed habitat */
  share: ShareOfTotal | null;
}

export interface NamedArea extends AreaNumbers {
  name: string;
  polygons: LngLatPolygon[];
}

/** What is asked for. */
export interface AreaRequest {
  /** one of the two */
  budget_m2: number | null;
  budget_m3: number | null;
  /** the volume of the budget is that of a layer this thick; null = the whole column */
  layer_m: number | null;
  /** the least that can be treated as one area */
  least_area_m2: number;
  least_width_m: number;
  /** how far an area must reach beyond each detection in it */
  margin_m: number;
  /** separate areas that the budget may be divided into */
  most_parts: number;
}

/** Usual sizes: common practice of lake treatments, where a boat has to turn within an area. */
export const USUAL_AREA = { leastM2: 1000, widthM: 20, parts: 3 };

/** The share of a proposal, as it looks and without what choosing by the same data adds to it. */
export interface CorrectedShare extends ShareOfTotal {
  /** mean of logit share as it looked − logit share as it was, over the draws */
  bias_logit: number;
  draws: number;
}

export interface Proposal extends NamedArea {
  /** connected areas it is made of */
  parts: NamedArea[];
  /** what of the budget it takes, m² or m³ */
  used: number;
  /** the share of the total that no choice of blocks within the budget can exceed */
  bound_share: number;
  /** null where it holds all or none */
  corrected: CorrectedShare | null;
}

/** What the areas of treatments.geojson hold. */
export interface AreasHeld {
  lake: string;
  /** confidence level of all intervals */
  interval: number;
  depth_from_m: number;
  depth_to_m: number;
  total: { mussels: Quantity; surveyed_m2: number };
  /** areas of treatments.geojson */
  candidates: NamedArea[];
  /** what is left of the surveyed habitat outside of all candidates; null without candidates */
  left_out: { surveyed_m2: number; mussels: Quantity; share: ShareOfTotal | null } | null;
  /** of the named areas; chance that the first holds more mussels than the second, null where one holds none */
  pairs: { first: string; second: string; chance: number | null }[];
}

export interface AreasFile extends AreasHeld {
  schema: 'shoalwise/areas/1';
  request: AreaRequest;
  /** squares that proposals are made of: their side, how many may be chosen, how many touch an excluded place */
  blocks: { side_m: number; eligible: number; excluded: number };
  /** one area, then up to two, …; none where no block may be chosen or the budget takes none */
  proposals: Proposal[];
  /** the best single compact area of the budget */
  compact: NamedArea | null;
  /** the best single connected area of other budgets, m² or m³, and their bounds */
  curve: { budget: number; share: number; bound_share: number }[];
}
