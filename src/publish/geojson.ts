/** Ropes, segments and clusters for a GIS: GeoJSON after RFC 7946 (WGS 84, longitude first, 7 decimals). */

import type { ModelChecks } from '../../shared/result.ts';
import type {
  LngLat,
  PlacedDetection,
  PlacedTransect,
  Segment,
  Survey,
} from '../../shared/survey.ts';
import { degrees, tidy } from './numbers.ts';
import { countsOf } from './tables.ts';

export type Value = string | number | boolean | null | object;
export type Properties = Record<string, Value>;
export interface Feature {
  type: 'Feature';
  geometry: { type: 'LineString'; coordinates: LngLat[] } | { type: 'Point'; coordinates: LngLat };
  properties: Properties;
}

/**
 * One line a transect, from its adjusted start to its adjusted end, with how far each observation was moved and, where
 * the model lets transects differ, its effect on the log density with its standard error.
 */
export function transectFeatures(
  placed: PlacedTransect[],
  segments: Segment[],
  survey: Survey,
  effects: ModelChecks['effects'] = null,
): Feature[] {
  const found = foundByTransect(segments, survey);
  const place = new Map(survey.transects.map((t, i) => [t.transect, i]));
  return placed.map((p) => {
    const t = p.transect;
    const counts = found.get(t.transect);
    const effect = effects?.[place.get(t.transect) ?? -1] ?? null;
    return line(p.startLngLat, p.endLngLat, {
      transect: t.transect,
      date: t.date,
      design: t.design,
      primary: t.primary,
      secondary: t.secondary,
      length_m: t.lengthM,
      horizontal_length_m: tidy(p.horizontalLengthM),
      width_m: t.widthM,
      clusters: counts?.clusters ?? 0,
      mussels_counted: counts?.mussels ?? 0,
      grid_bearing_deg: tidy(p.gridBearingDeg),
      declination_deg: p.declinationDeg === null ? null : tidy(p.declinationDeg),
      end_inferred: p.endInferred,
      start_se_m: tidy(p.startSeM),
      end_se_m: tidy(p.endSeM),
      residuals: p.residuals.map((r) => ({
        of: r.of,
        value: tidy(r.value),
        se: tidy(r.se),
        flagged: r.flagged,
      })),
      effect: effect === null ? null : tidy(effect.effect),
      effect_se: effect === null ? null : tidy(effect.se),
      ...passedThrough(t.extra),
    });
  });
}

/** One line a segment with its habitat and what was found on it. */
export function segmentFeatures(segments: Segment[], survey: Survey): Feature[] {
  return segments.map((s) => {
    const found = countsOf(s, survey.detections);
    return line(s.startLngLat, s.endLngLat, {
      segment: s.segment,
      transect: s.transect,
      design: s.design,
      from_m: tidy(s.fromM),
      to_m: tidy(s.toM),
      area_m2: tidy(s.areaM2),
      substrate: s.substrate.join('+'),
      plant_cover: s.plantCover,
      depth_m: tidy(s.depthM),
      clusters: found.primary + found.secondary,
      mussels_counted: found.mussels,
      position_se_m: tidy(s.positionSeM),
    });
  });
}

/** One point a cluster, where the rope's mark places it. */
export function detectionFeatures(
  placed: PlacedDetection[],
  segments: Segment[],
  survey: Survey,
): Feature[] {
  return placed.map((p) => {
    const d = survey.detections[p.detection];
    const s = segments[p.segmentIndex];
    return {
      type: 'Feature',
      geometry: { type: 'Point', coordinates: position(p.lngLat) },
      properties: {
        transect: d.transect,
        segment: s.segment,
        role: d.role,
        diver: d.role === 'primary' ? s.primary : s.secondary,
        distance_m: d.distanceM,
        offset_m: d.offsetM,
        count: d.count,
        cluster_length_cm: d.clusterLengthCm,
        cluster_width_cm: d.clusterWidthCm,
        substrate: s.substrate.join('+'),
        depth_m: tidy(s.depthM),
        position_se_m: tidy(p.positionSeM),
        ...passedThrough(d.extra),
      },
    };
  });
}

/** Columns of the sheets that we do not know, under a name that cannot hide one of ours. */
function passedThrough(extra: Record<string, string>): Properties {
  return Object.fromEntries(Object.entries(extra).map(([name, value]) => [`sheet:${name}`, value]));
}

function foundByTransect(
  segments: Segment[],
  survey: Survey,
): Map<string, { clusters: number; mussels: number }> {
  const found = new Map<string, { clusters: number; mussels: number }>();
  for (const s of segments) {
    const counts = countsOf(s, survey.detections);
    const sum = found.get(s.transect) ?? { clusters: 0, mussels: 0 };
    sum.clusters += counts.primary + counts.secondary;
    sum.mussels += counts.mussels;
    found.set(s.transect, sum);
  }
  return found;
}

function line(start: LngLat, end: LngLat, properties: Properties): Feature {
  const coordinates = [position(start), position(end)];
  return { type: 'Feature', geometry: { type: 'LineString', coordinates }, properties };
}

function position([lon, lat]: LngLat): LngLat {
  if (!Number.isFinite(lon) || !Number.isFinite(lat))
    throw new Error(`got position ${lon}, ${lat}, expected degrees`);
  return [degrees(lon), degrees(lat)];
}

/** One feature a line, so that two results can be compared line by line. */
export function geoJson(features: Feature[]): string {
  const lines = features.map((f) => JSON.stringify(f)).join(',\n');
  return `{"type":"FeatureCollection","features":[\n${lines}\n]}\n`;
}
