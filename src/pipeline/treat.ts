/** The estimate of a survey, and what it says of areas: those to be treated, and the parts of the bed that a GIS shows. */

import type { AreaCutter, AreaRequest, AreasFile } from '../../shared/areas.ts';
import { type Finding, hasErrors, type Progress } from '../../shared/findings.ts';
import type { BedParts } from '../../shared/open.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { KEEP_OUT_FILE } from '../../shared/survey-files.ts';
import type { Again, EstimateOptions } from '../estimate/index.ts';
import { type Folder, readPlaces } from '../read/index.ts';
import { estimateJudged } from './estimate.ts';
import { judgeOnLake } from './judge.ts';

export interface AreasAsked {
  request: AreaRequest;
  /** a GeoJSON file of places that must not be chosen; null: keep-out.geojson of the survey, where there is one */
  excluded: { name: string; bytes: Uint8Array } | null;
}

export type TreatedAreas =
  | { ok: true; result: SurveyResult; areas: AreasFile; findings: Finding[] }
  | { ok: false; findings: Finding[] };

/** The estimate, the numbers of the survey's treatment areas, and areas proposed for a budget. */
export async function treatSurvey(
  folder: Folder,
  { request, excluded }: AreasAsked,
  options: EstimateOptions = {},
): Promise<TreatedAreas> {
  // loaded when areas are asked for
  const { areaBasis, areasOf, NO_LAKE, treatAreas } = await import('./areas.ts');
  const kept = folder.files.get(KEEP_OUT_FILE);
  const given = excluded ?? (kept === undefined ? null : { name: KEEP_OUT_FILE, bytes: kept });
  const places =
    given === null ? { polygons: [], findings: [] } : readPlaces(given.name, given.bytes);
  if (hasErrors(places.findings)) return { ok: false, findings: places.findings };
  const { judged, laid } = await judgeOnLake(folder, options.progress);
  // no estimate is awaited that could give no area a number
  if (judged.prepared?.bed === null) return { ok: false, findings: [...judged.findings, NO_LAKE] };
  const estimated = await estimateJudged(judged, { ...options, replicates: 0 });
  if (!estimated.ok) return estimated;
  const { result } = estimated;
  const findings = [...result.findings, ...places.findings];
  const based = areaBasis(estimated, laid?.areas ?? null);
  if (!based.ok) return { ok: false, findings: [...findings, based.finding] };
  const { plane, detections, analysis } = result;
  const numbers = treatAreas(
    {
      basis: based.basis,
      plane,
      request,
      candidates: result.lake.treatments,
      excluded: places.polygons,
      detections: detections.map((d) => plane.forward(d.lngLat)),
      seed: analysis.seed,
      level: analysis.interval,
    },
    (share) => options.progress?.('areas', share),
  );
  const areas: AreasFile = {
    schema: 'shoalwise/areas/1',
    ...areasOf(result),
    ...numbers,
  };
  return { ok: true, result, areas, findings };
}

export type Described =
  | { ok: true; result: SurveyResult; parts: BedParts }
  | { ok: false; findings: Finding[] };

/** The estimate, and what it says of the bed in the parts that a GIS shows. */
export async function describeBed(
  folder: Folder,
  options: EstimateOptions = {},
): Promise<Described> {
  const { judged, laid } = await judgeOnLake(folder, options.progress);
  const estimated = await estimateJudged(judged, options);
  if (!estimated.ok) return estimated;
  return {
    ok: true,
    result: estimated.result,
    parts: await bedParts(estimated, laid?.areas ?? null, options.progress),
  };
}

/** The bed in parts; polygons of the substrate map have no numbers where areas have none. */
export async function bedParts(
  estimated: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
  progress: Progress = () => {},
): Promise<BedParts> {
  const { bed, lake, plane, analysis } = estimated.result;
  if (bed === null) return { patches: null, strata: null };
  // loaded when such files are asked for
  const { areaBasis, patchNumbers, strataShapes } = await import('./areas.ts');
  const based = areaBasis(estimated, cutter);
  const told = (share: number): void => progress('areas', share);
  return {
    patches: based.ok ? patchNumbers(based.basis, plane, lake.substrate ?? [], told) : null,
    strata: strataShapes(bed, analysis.substrates, plane),
  };
}
