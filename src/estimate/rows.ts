/** From the survey's segments and sheets to the numbers that the models take, and the domain for which they speak. */

import type { MappedHabitat, SurveyRows } from '../../models/index.ts';
import type { Analysis } from '../../shared/analysis.ts';
import { extent } from '../../shared/extent.ts';
import type { Domain, MapHabitat, Segment, Shore, Survey } from '../../shared/survey.ts';

/** Segments and clusters as numbers; classes and observers by index, classes in the order of analysis.substrates. */
export function surveyRows(
  survey: Survey,
  segments: Segment[],
  analysis: Analysis,
  shore: Pick<Shore, 'shares'> | null = null,
): SurveyRows {
  const observerNames = [
    ...new Set(
      survey.transects.flatMap((t) =>
        t.secondary === null ? [t.primary] : [t.primary, t.secondary],
      ),
    ),
  ].sort();
  const observer = new Map(observerNames.map((name, i) => [name, i]));
  const classOf = new Map(analysis.substrates.map((name, i) => [name, i]));
  const clusters: SurveyRows['clusters'] = [];
  const rows = segments.map((s, index) => {
    for (const d of s.detections) {
      const { role, offsetM, count } = survey.detections[d];
      clusters.push({ segment: index, role, offsetM, count });
    }
    return {
      transect: s.transectIndex,
      design: s.design,
      areaM2: s.areaM2,
      halfWidthM: s.widthM / 2,
      classes: s.substrate.map((name) => indexOf(classOf, name)),
      plantCover: s.plantCover,
      depthM: s.depthM,
      shore: shore?.shares.get(s.transect) ?? null,
      clarityM: s.clarityM,
      primary: indexOf(observer, s.primary),
      secondary: s.secondary === null ? null : indexOf(observer, s.secondary),
    };
  });
  const placeOf = new Map(survey.transects.map((t, i) => [t.transect, i]));
  const planted = (survey.planted ?? []).map(({ transect, row: _, ...shells }) => ({
    ...shells,
    transect: indexOf(placeOf, transect),
  }));
  return {
    segments: rows,
    clusters,
    ...(planted.length > 0 ? { planted } : {}),
    transectCount: survey.transects.length,
    classNames: analysis.substrates,
    observerNames,
  };
}

/** The map's habitats with classes by index. */
export function mappedHabitats(habitats: MapHabitat[], analysis: Analysis): MappedHabitat[] {
  const classOf = new Map(analysis.substrates.map((name, i) => [name, i]));
  return habitats.map((h) => ({
    classes: h.substrate.map((name) => indexOf(classOf, name)),
    plantCover: h.plantCover,
    shore: h.shore ?? null,
  }));
}

function indexOf(index: Map<string, number>, name: string): number {
  const found = index.get(name);
  if (found === undefined)
    throw new RangeError(
      `"${name}" is unknown here, expected one of ${[...index.keys()].join(', ')}`,
    );
  return found;
}

/**
 * Where the survey can speak (METHOD.md: Surveyed habitat): classes seen, recorded depths (end rows included) widened by the
 * tolerance and cut at max_depth_m, plants met when the model uses them.
 */
export function surveyedDomain(survey: Survey, analysis: Analysis): Domain {
  const seen = new Set<string>();
  const depths: number[] = [];
  const plants: number[] = [];
  for (const h of survey.habitat) {
    depths.push(h.depthM);
    for (const c of h.substrate ?? []) seen.add(c);
    if (h.substrate !== null && h.plantCover !== null) plants.push(h.plantCover);
  }
  if (depths.length === 0) return { classes: [], depthFromM: 0, depthToM: 0, plantCover: null };
  const { depth_tolerance_m: tolerance, max_depth_m: limit } = analysis.map;
  const [least, greatest] = extent(depths);
  const deepest = greatest + tolerance;
  const [sparsest, densest] = plants.length === 0 ? [0, 0] : extent(plants);
  return {
    classes: analysis.substrates.filter((c) => seen.has(c)),
    depthFromM: Math.max(0, least - tolerance),
    depthToM: limit === null ? deepest : Math.min(deepest, limit),
    plantCover:
      analysis.density.plant_cover === 'none' || plants.length === 0
        ? null
        : { from: sparsest, to: densest },
  };
}
