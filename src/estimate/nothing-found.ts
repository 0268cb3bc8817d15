/** A survey that found nothing: no density, but an upper limit that it can vouch for (method: likelihood, boundaries). */

import type { SurveyRows } from '../../models/data.ts';
import type { Estimate, Stratum } from '../../shared/estimate.ts';
import type { ModelNotice } from '../../shared/model-notices.ts';
import type { Surface } from '../../shared/result.ts';
import type { EstimateInput } from './index.ts';
import { atMost, outsideAreas } from './lake-wide.ts';

/** Detection probabilities for which the notice gives the limit. */
const IF_DETECTED = [0.9, 0.7, 0.5];

/**
 * The model is Poisson with p = 1, whatever was asked: clusters 0, at most −log(1−interval) × area inside / Σ area searched.
 */
export function nothingFound(
  { analysis, bed, treated }: EstimateInput,
  rows: SurveyRows,
  data: Estimate['data'],
): { estimate: Estimate; surface: Surface | null; notices: ModelNotice[] } {
  const events = -Math.log(1 - analysis.interval);
  const searched = data.area_searched_m2;
  const perM2 = events / searched;
  const outside = bed ? outsideAreas(bed) : null;
  const insideM2 = bed ? insideArea(bed.pieces) : 0;
  const limits = rows.classNames.flatMap((name, c) => {
    const own = rows.segments.filter((s) => s.classes.includes(c));
    if (own.length === 0) return [];
    return [{ name, upper: events / own.reduce((sum, s) => sum + s.areaM2, 0) }];
  });
  return {
    estimate: {
      schema: 'shoalwise/estimate/1',
      lake: analysis.lake,
      data,
      model: {
        family: 'poisson',
        transect_effect: false,
        density_terms: [],
        detection_terms: [],
        log_likelihood: 0,
        parameters: 0,
        aicc: 0,
        converged: true,
        gradient_max: 0,
      },
      coefficients: [],
      detection: null,
      cluster_size: null,
      abundance:
        bed && insideM2 > 0
          ? {
              clusters: atMost(perM2 * insideM2),
              mussels: atMost(null),
              area_m2: insideM2,
              outside_area_m2: (outside ?? []).reduce((sum, o) => sum + o.area_m2, 0),
              unmapped_area_m2: bed.unmappedM2,
            }
          : null,
      strata: bed ? emptyStrata() : null,
      treatments: bed
        ? treated.map(({ name, bed: own }) => {
            const area = own ? insideArea(own.pieces) : 0;
            const beyond = own
              ? outsideAreas(own).reduce((sum, o) => sum + o.area_m2, 0) + own.unmappedM2
              : 0;
            return {
              name,
              area_m2: area,
              outside_area_m2: beyond,
              clusters: area > 0 ? atMost(perM2 * area) : null,
              mussels: area > 0 ? atMost(null) : null,
            };
          })
        : null,
      outside,
      upper_limits: limits.map((l) => ({
        part: 'density',
        class: l.name,
        clusters_per_m2: l.upper,
        mussels_per_m2: null,
      })),
      models: [
        {
          family: 'poisson',
          transect_effect: false,
          shape: null,
          log_likelihood: 0,
          parameters: 0,
          aicc: 0,
          boundary: 'density → 0: nothing was detected',
        },
      ],
      bootstrap: null,
      checks: {
        pearson_dispersion: null,
        log_score: null,
        moran_i: null,
        moran_p: null,
        by_diver: [],
        by_offset: [],
        by_substrate: [],
        by_depth: [],
      },
      design_based: { clusters_per_m2: null },
      warnings: [],
    },
    surface: bed ? emptySurface() : null,
    notices: [
      {
        code: 'nothing-found',
        searchedM2: searched,
        upperPerM2: perM2,
        ifDetected: IF_DETECTED.map((p) => ({ p, upperPerM2: perM2 / p })),
      },
    ],
  };

  function insideArea(pieces: NonNullable<typeof bed>['pieces']): number {
    let sum = 0;
    for (let i = 0; i < pieces.count; i++) if (pieces.reason[i] === 0) sum += pieces.areaM2[i];
    return sum;
  }

  function emptyStrata(): Stratum[] {
    if (!bed) return [];
    const areas = new Map<string, Stratum>();
    const rank = new Map(rows.classNames.map((name, i) => [name, i]));
    const byRank = (a: string, b: string): number => (rank.get(a) ?? 0) - (rank.get(b) ?? 0);
    const { pieces } = bed;
    for (let i = 0; i < pieces.count; i++) {
      if (pieces.reason[i] !== 0) continue;
      const substrate = [...bed.habitats[pieces.habitat[i]].substrate].sort(byRank).join('+');
      const band = pieces.band[i];
      const row = areas.get(`${substrate}|${band}`) ?? {
        substrate,
        depth_from_m: band,
        depth_to_m: band + 1,
        area_m2: 0,
        mussels_per_m2: atMost(null),
        mussels: atMost(null),
      };
      row.area_m2 += pieces.areaM2[i];
      areas.set(`${substrate}|${band}`, row);
    }
    return [...areas.values()].sort(
      (a, b) => byRank(a.substrate, b.substrate) || a.depth_from_m - b.depth_from_m,
    );
  }

  function emptySurface(): Surface | null {
    if (!bed) return null;
    const cells = bed.frame.nx * bed.frame.ny;
    const inside = new Float32Array(cells).fill(Number.NaN);
    const covered = new Float32Array(cells);
    const within = new Float32Array(cells);
    const { pieces } = bed;
    for (let i = 0; i < pieces.count; i++) {
      covered[pieces.cell[i]] += pieces.areaM2[i];
      if (pieces.reason[i] === 0) within[pieces.cell[i]] += pieces.areaM2[i];
    }
    const density = new Float32Array(cells).fill(Number.NaN);
    for (let c = 0; c < cells; c++) {
      if (covered[c] === 0) continue;
      inside[c] = within[c] >= covered[c] / 2 ? 1 : 0;
      if (inside[c] === 1) density[c] = 0;
    }
    const threshold = analysis.map.threshold_per_m2;
    return {
      densityPerM2: density,
      cv: new Float32Array(cells).fill(Number.NaN),
      inside,
      aboveThreshold: threshold === null ? null : new Float32Array(cells).fill(Number.NaN),
    };
  }
}
