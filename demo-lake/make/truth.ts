/** The true parameters of the invented lake, and the true expected abundance by integration over its formulas. */
import { logDensity, meanClusterSize, type Truth } from '../../models/simulate.ts';
import type { XY } from '../../shared/survey.ts';
import { COVERS, coverAt, depthAt, FRAME, plantCoverAt } from './shape.ts';

export const TRUTH: Truth = {
  density: {
    family: 'nb1',
    dispersion: 0.9,
    transect_sd: 0,
    intercept: -4.6,
    substrate: { mud: -1, silt: 0, sand: 1.2, gravel: 3.4, rock: 5 },
    plant_cover: -0.2,
    // log density −(z − 3)²/(2·2²) but for a constant: a peak at 3 m, a third of it at 0 m and 6 m
    depth: 0.75,
    depth_squared: -0.125,
  },
  detection: {
    observers: {
      Ines: { belt: 1.4, distance: 1.7 },
      Tomas: { belt: 0.85, distance: 1.1 },
      Wren: { belt: 0.5, distance: 0.65 },
    },
    substrate: {},
    plant_cover: 0,
    depth: 0,
    clarity: 0,
    log_count: 0,
    shape: { kind: 'half-normal', sigma_m: 0.6 },
    independence: 'point',
    offset: -0.8,
  },
  cluster_size: { extra_mean: 2.2, k: 0.9, substrate: {} },
};

/** What the sheets and the default choices say of the surveyed domain. */
export interface SurveyedDomain {
  classes: string[];
  depthFromM: number;
  depthToM: number;
  plantCoverFrom: number;
  plantCoverTo: number;
}

export interface Expected {
  areaM2: number;
  clusters: number;
  mussels: number;
}

/**
 * True expected numbers on the mapped bed that lies within the domain, by the midpoint rule on squares of stepM:
 * at each middle the depth, the substrate and the plants are those of the formulas, not of the drawn maps.
 * @param areas one sum for each: the squares whose middle it holds
 */
export function integrate(
  domain: SurveyedDomain,
  stepM: number,
  areas: ((p: XY) => boolean)[],
): Expected[] {
  const totals = areas.map((): Expected => ({ areaM2: 0, clusters: 0, mussels: 0 }));
  const squareM2 = stepM * stepM;
  for (let y = FRAME.y0 + stepM / 2; y < FRAME.y0 + FRAME.heightM; y += stepM) {
    for (let x = FRAME.x0 + stepM / 2; x < FRAME.x0 + FRAME.widthM; x += stepM) {
      const density = densityAt([x, y], domain);
      if (density === null) continue;
      for (const [i, holds] of areas.entries()) {
        if (!holds([x, y])) continue;
        totals[i].areaM2 += squareM2;
        totals[i].clusters += density.clusters * squareM2;
        totals[i].mussels += density.mussels * squareM2;
      }
    }
  }
  return totals;
}

/** Expected clusters and mussels per m², or null outside of the domain. */
export function densityAt(
  p: XY,
  domain: SurveyedDomain,
): { clusters: number; mussels: number } | null {
  const depthM = depthAt(p);
  if (depthM <= 0 || depthM < domain.depthFromM || depthM > domain.depthToM) return null;
  const cover = coverAt(p);
  const mapped = COVERS[cover] ?? null;
  if (mapped === null || !isSurveyedCover(mapped.plantCover, domain)) return null;
  const substrate = mapped.substrate.split('+');
  if (!substrate.every((name) => domain.classes.includes(name))) return null;
  const habitat = { substrate, plantCover: plantCoverAt(p, cover), depthM };
  const clusters = Math.exp(logDensity(TRUTH, habitat));
  return { clusters, mussels: clusters * meanClusterSize(TRUTH, substrate) };
}

/** Bed whose plants are not mapped counts as inside. */
function isSurveyedCover(plantCover: number | null, domain: SurveyedDomain): boolean {
  if (plantCover === null) return true;
  return plantCover >= domain.plantCoverFrom && plantCover <= domain.plantCoverTo;
}
