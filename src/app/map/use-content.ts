/** Hands the survey and its lake to the map; only what changed is handed over anew. */

import { useEffect, useMemo } from 'react';
import type { JudgedView, ResultView } from '../contract.ts';
import { countShapes, departureShapes } from './features/counts.ts';
import { faultShapes } from './features/faults.ts';
import { type Shapes, shapes } from './features/geo.ts';
import { lakeShapes } from './features/lake-shapes.ts';
import { lakeKey, ropeZooms, type Shown } from './features/map-content.ts';
import { residualShapes } from './features/residuals.ts';
import { ropeShapes } from './features/ropes.ts';
import type { LakeMap } from './lake-map.ts';
import type { RopeZooms, ShapeSource } from './layer-parts.ts';

const NONE = shapes([]);

export interface Content {
  labels: readonly string[];
  zooms: RopeZooms;
  /** some finding has a place on the map */
  faults: boolean;
}

export function useContent(
  map: LakeMap | null,
  shown: Shown | null,
  judged: JudgedView | null,
  result: ResultView | null,
): Content {
  const classes = shown?.analysis.substrates ?? [];
  const key = useMemo(
    () => (shown ? `${shown.analysis.substrates.join()}|${lakeKey(shown.lake)}` : ''),
    [shown],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the lake and the classes
  const lake = useMemo(() => (shown ? lakeShapes(shown.lake, classes) : null), [key]);
  const ropes = useMemo(() => (shown ? ropeShapes({ ...shown, classes }) : null), [shown, classes]);
  const zooms = useMemo(() => ropeZooms(shown?.placed ?? []), [shown]);
  const faults = useMemo(() => (judged ? faultShapes(judged) : NONE), [judged]);
  const residuals = useMemo(() => residualShapes(shown?.placed ?? []), [shown]);
  const lines = useMemo(
    () => shapes([...(ropes?.lines.features ?? []), ...residuals.lines.features]),
    [ropes, residuals],
  );
  const counts = useMemo(
    () =>
      shown
        ? countShapes(
            shown.placed,
            shown.segments,
            shown.survey,
            result?.estimate.detection?.mean_p ?? null,
          )
        : NONE,
    [shown, result],
  );
  const departed = useMemo(
    () =>
      result?.checks
        ? departureShapes(result.placed, result.segments, result.checks.expected)
        : NONE,
    [result],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: classes change with the lake's key
  useEffect(() => {
    if (!map) return;
    // strips on the ropes may have labels that the lake's map lacks
    const onRopes = (ropes?.lines.features ?? []).flatMap((f) => f.properties.substrate ?? []);
    void map.setPatterns([...new Set([...(lake?.labels ?? []), ...onRopes.map(String)])], classes);
  }, [map, lake, ropes]);

  useShapes(map, 'lake', lake?.shapes);
  useShapes(map, 'ropes', lines);
  useShapes(map, 'marks', ropes?.marks);
  useShapes(map, 'tickLabels', ropes?.tickLabels);
  useShapes(map, 'clusters', ropes?.clusters);
  useShapes(map, 'residualPoints', residuals.points);
  useShapes(map, 'counts', counts);
  useShapes(map, 'departures', departed);
  useShapes(map, 'faults', faults);
  useEffect(() => void map?.setRopeZooms(zooms), [map, zooms]);
  return { labels: lake?.labels ?? [], zooms, faults: faults.features.length > 0 };
}

function useShapes(map: LakeMap | null, source: ShapeSource, data: Shapes | undefined): void {
  useEffect(() => void map?.setShapes(source, data ?? NONE), [map, source, data]);
}
