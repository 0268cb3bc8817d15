/** What the open files tell beyond the result: the bed in the parts that a GIS shows. */

import type { Quantity } from './estimate.ts';
import type { LngLatPolygon } from './survey.ts';

/** What a polygon of the substrate map holds; mussels are null where none of it is surveyed habitat. */
export interface PatchNumbers {
  surveyedM2: number;
  mussels: Quantity | null;
  musselsPerM2: Quantity | null;
}

/** Where a stratum lies. */
export interface StratumShape {
  /** as in the estimate's strata */
  substrate: string;
  depthFromM: number;
  polygons: LngLatPolygon[];
}

export interface BedParts {
  /** in the order of the lake's substrate polygons; null without a mapped bed, or where no area has a number */
  patches: (PatchNumbers | null)[] | null;
  /** null without a mapped bed */
  strata: StratumShape[] | null;
}

/** What only those who made the survey can say of it; null or empty = not said. */
export interface Credits {
  authors: string[];
  /** scientific name of what was looked for */
  taxon: string | null;
  /** name of a licence, as SPDX writes it */
  license: string | null;
}
