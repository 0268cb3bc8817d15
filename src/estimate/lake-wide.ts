/** From the fit to the bed: abundance, strata, treatment areas, the density of every cell, curves against depth. */

import {
  type ClassLimit,
  densityAt,
  densitySurface,
  type Fit,
  type HabitatSum,
  intervalQuantile,
  limitOf,
  logNormalQuantity,
  type MappedHabitat,
  type Predictor,
  predictor,
  type SurveyRows,
  sumPieces,
  type Total,
  totalOf,
} from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import type { Estimate, Quantity, Stratum, TreatmentRow } from '../../shared/estimate.ts';
import type { DensityCurve, Surface } from '../../shared/result.ts';
import { type Bed, type Domain, REASONS, type TreatedBed } from '../../shared/survey.ts';
import { mappedHabitats } from './rows.ts';

export interface LakeWide {
  abundance: Estimate['abundance'];
  strata: Stratum[] | null;
  outside: Estimate['outside'];
  treatments: TreatmentRow[] | null;
  surface: Surface | null;
  /** inside area whose polygons say nothing of plants, though the model uses them */
  plantsUnmappedM2: number;
  /** of the mussels by the parameters, null when none are expected */
  gradientOfLogTotal: Float64Array | null;
}

/** Limits where nothing was detected, clusters per m². */
export interface UpperLimits {
  classes: ClassLimit[];
  /** of the whole survey when nothing was detected anywhere; else null */
  overall: number | null;
}

export function lakeWide(
  rows: SurveyRows,
  fit: Fit,
  limits: UpperLimits,
  analysis: Analysis,
  bed: Bed,
  treated: TreatedBed[],
): LakeWide {
  const { classes, overall } = limits;
  const p = predictor(rows, fit);
  const quantile = intervalQuantile(
    analysis.interval,
    fit.parts.transectEffect,
    rows.transectCount,
  );
  const quantity = (estimate: number, se: number): Quantity =>
    logNormalQuantity(estimate, se, quantile);
  const clustersOf = (t: Total): Quantity =>
    overall === null ? quantity(t.clusters, t.clustersSe) : atMost(overall * t.areaM2);
  // how many mussels a cluster holds is unknown when none was detected
  const musselsOf = (t: Total): Quantity =>
    overall === null ? quantity(t.mussels, t.musselsSe) : atMost(null);
  const sumOf = (b: Bed): { sums: HabitatSum[]; total: Total; mapped: MappedHabitat[] } => {
    const mapped = mappedHabitats(b.habitats, analysis);
    const densities = mapped.map((h) => p.habitat(h));
    const sums = sumPieces(b.pieces, densities, p);
    return { sums, total: totalOf(sums, densities, p, fit.covariance), mapped };
  };
  const { sums, total, mapped } = sumOf(bed);
  const densities = mapped.map((h) => p.habitat(h));
  const outside = outsideAreas(bed);
  const outsideM2 = outside.reduce((sum, o) => sum + o.area_m2, 0);
  const cells = bed.frame.nx * bed.frame.ny;
  const surface = densitySurface(
    bed.pieces,
    cells,
    densities,
    p,
    fit.covariance,
    analysis.map.threshold_per_m2,
  );
  // without a detection there is a limit, but no probability of a density
  if (overall !== null) surface.aboveThreshold?.fill(Number.NaN);
  return {
    abundance:
      total.areaM2 === 0
        ? null
        : {
            clusters: clustersOf(total),
            mussels: musselsOf(total),
            area_m2: total.areaM2,
            outside_area_m2: outsideM2,
            unmapped_area_m2: bed.unmappedM2,
          },
    strata: strata(),
    outside,
    treatments: treated.map(({ name, bed: own }) => treatmentRow(name, own)),
    surface,
    plantsUnmappedM2:
      analysis.density.plant_cover === 'none' || overall !== null
        ? 0
        : sums.reduce((sum, s) => sum + (mapped[s.habitat].plantCover === null ? s.areaM2 : 0), 0),
    gradientOfLogTotal: total.mussels > 0 ? total.gradient.map((g) => g / total.mussels) : null,
  };

  function treatmentRow(name: string, own: Bed | null): TreatmentRow {
    if (own === null)
      return { name, area_m2: 0, outside_area_m2: 0, clusters: null, mussels: null };
    const { total } = sumOf(own);
    const beyond = outsideAreas(own).reduce((sum, o) => sum + o.area_m2, 0) + own.unmappedM2;
    return {
      name,
      area_m2: total.areaM2,
      outside_area_m2: beyond,
      clusters: total.areaM2 === 0 ? null : clustersOf(total),
      mussels: total.areaM2 === 0 ? null : musselsOf(total),
    };
  }

  function strata(): Stratum[] {
    const groups = new Map<
      string,
      { label: string; order: number; band: number; sums: HabitatSum[] }
    >();
    for (const s of sums) {
      const classes = [...mapped[s.habitat].classes].sort((a, b) => a - b);
      const label = classes.map((c) => rows.classNames[c]).join('+');
      const key = `${label}|${s.band}`;
      const group = groups.get(key);
      if (group) group.sums.push(s);
      else {
        const order = classes[0] * 1000 + (classes.length > 1 ? 500 + classes[1] : 0);
        groups.set(key, { label, order, band: s.band, sums: [s] });
      }
    }
    return [...groups.values()]
      .sort((a, b) => a.order - b.order || a.label.localeCompare(b.label) || a.band - b.band)
      .map((g) => {
        const t = totalOf(g.sums, densities, p, fit.covariance);
        const row: Stratum = {
          substrate: g.label,
          depth_from_m: g.band,
          depth_to_m: g.band + 1,
          area_m2: t.areaM2,
          mussels_per_m2: quantity(t.mussels / t.areaM2, t.musselsSe / t.areaM2),
          mussels: quantity(t.mussels, t.musselsSe),
        };
        const limit = limitOf(classes, mapped[g.sums[0].habitat], fit.parts);
        if (t.separatedM2 >= t.areaM2 * (1 - 1e-12) && limit !== null) {
          const each = Math.exp(densities[g.sums[0].habitat].logMussels);
          const upper = overall === null ? limit * each : null;
          row.mussels_per_m2 = atMost(upper);
          row.mussels = atMost(upper === null ? null : upper * t.areaM2);
        }
        return row;
      });
  }
}

/** Nothing detected: 0 with an upper limit. */
export function atMost(upper: number | null): Quantity {
  return { estimate: 0, se: null, cv: null, lower: 0, upper };
}

export function outsideAreas(bed: Bed): { reason: string; area_m2: number }[] {
  const areas = new Float64Array(REASONS.length);
  for (let i = 0; i < bed.pieces.count; i++) areas[bed.pieces.reason[i]] += bed.pieces.areaM2[i];
  return REASONS.slice(1).flatMap((reason, k) =>
    areas[k + 1] > 0 ? [{ reason, area_m2: areas[k + 1] }] : [],
  );
}

/** Density against depth on each surveyed class, over the plants that divers met on it. */
export function depthCurves(
  rows: SurveyRows,
  fit: Fit,
  analysis: Analysis,
  domain: Domain,
): DensityCurve[] {
  const p: Predictor = predictor(rows, fit);
  const quantile = intervalQuantile(
    analysis.interval,
    fit.parts.transectEffect,
    rows.transectCount,
  );
  const steps = 60;
  return domain.classes.map((name) => {
    const habitat = { classes: [rows.classNames.indexOf(name)], plantCover: null };
    const curve: DensityCurve = {
      substrate: [name],
      depthM: [],
      musselsPerM2: [],
      lower: [],
      upper: [],
    };
    for (let i = 0; i <= steps; i++) {
      const depthM = domain.depthFromM + ((domain.depthToM - domain.depthFromM) * i) / steps;
      const at = densityAt(p, fit.covariance, habitat, depthM);
      const q = logNormalQuantity(at.mussels, at.musselsSe, quantile);
      curve.depthM.push(depthM);
      curve.musselsPerM2.push(q.estimate);
      curve.lower.push(q.lower ?? q.estimate);
      curve.upper.push(q.upper ?? q.estimate);
    }
    return curve;
  });
}
