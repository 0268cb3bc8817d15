/** Numbers and shapes of drawn areas, from the estimate that the worker holds. */

import type { AreaCutter } from '../../../shared/areas.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import type { LngLatPolygon, XYPolygon } from '../../../shared/survey.ts';
import {
  type AreaMeasure,
  areaBasis,
  buffered,
  cutFrom,
  heldAreas,
  joined,
  type MeasuredArea,
  measureIn,
} from '../../pipeline/areas.ts';
import { type Again, areaFault } from '../../pipeline.ts';
import type { AreaWorker, Made, Reshape } from '../area-contract.ts';

/** Areas whose numbers are remembered: those that were not touched are not cut again. */
const MOST_REMEMBERED = 300;

export type AreaBench = Pick<AreaWorker, 'measureArea' | 'holdAreas' | 'areaFiles' | 'reshape'>;

export function areaBench(
  estimated: { result: SurveyResult; again: Again | null },
  cutter: AreaCutter | null,
): AreaBench {
  const { result } = estimated;
  const { plane } = result;
  const based = areaBasis(estimated, cutter);
  if (!based.ok) {
    const none = { ok: false, why: based.finding.message } as const;
    return {
      measureArea: async () => none,
      holdAreas: async () => none,
      areaFiles: async () => null,
      reshape: async () => none,
    };
  }
  const { basis } = based;
  const measure = measureIn(basis, plane);
  const remembered = remembering(measure);
  const hold = (areas: Parameters<AreaWorker['holdAreas']>[0], layerM: number | null) =>
    heldAreas(result, basis, areas, layerM, remembered);
  return {
    async measureArea(polygons, layerM) {
      const why = areaFault(polygons);
      if (why !== null) return { ok: false, why };
      return orWhy(() => ({ numbers: measure(polygons, layerM).numbers }));
    },
    async holdAreas(areas, layerM) {
      return orWhy(() => ({ held: hold(areas, layerM) }));
    },
    async areaFiles(areas, layerM) {
      const { heldFiles } = await import('../../publish/areas.ts');
      return heldFiles(hold(areas, layerM), layerM, result);
    },
    async reshape(change) {
      const made = await reshaped(change, (p) => inPlane(p, plane.forward));
      const polygons = inPlane(made, plane.inverse) as LngLatPolygon[];
      if (polygons.length === 0) return { ok: false, why: 'nothing is left of the area' };
      const why = areaFault(polygons);
      return why === null ? { ok: true, polygons } : { ok: false, why };
    },
  };
}

async function reshaped(
  change: Reshape,
  toPlane: (polygons: LngLatPolygon[]) => XYPolygon[],
): Promise<XYPolygon[]> {
  const area = toPlane(change.area);
  if (change.by === 'width') return buffered(area, change.widthM);
  const other = toPlane(change.other);
  return change.by === 'join' ? joined(area, other) : cutFrom(area, other);
}

function inPlane(
  polygons: readonly [number, number][][][],
  map: (p: [number, number]) => [number, number],
): [number, number][][][] {
  return polygons.map((rings) => rings.map((ring) => ring.map(map)));
}

/** An area may reach over more cells than can be laid out. */
function orWhy<T>(work: () => T): Made<T> {
  try {
    return { ok: true, ...work() };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ok: false, why: error.message };
  }
}

function remembering(measure: AreaMeasure): AreaMeasure {
  const known = new Map<string, MeasuredArea>();
  return (polygons, layerM) => {
    const key = JSON.stringify([polygons, layerM]);
    const value = known.get(key) ?? measure(polygons, layerM);
    known.delete(key);
    known.set(key, value);
    const [oldest] = known.keys();
    if (known.size > MOST_REMEMBERED && oldest !== undefined) known.delete(oldest);
    return value;
  };
}
