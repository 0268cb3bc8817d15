/** Hands the survey and its lake to the map; only what changed is handed over anew. */

import { useEffect, useMemo } from 'react';
import { plannedPlaces } from '../../present/planned.ts';
import {
  type Detected,
  departures,
  detectedByTransect,
  meanDetection,
} from '../../present/transect-counts.ts';
import type { JudgedView, ResultView, Units } from '../contract.ts';
import { type BedLabel, distinctLabels } from './features/bed-label.ts';
import { countShapes, departureShapes } from './features/counts.ts';
import { findingShapes } from './features/findings.ts';
import { type Shapes, shapes } from './features/geo.ts';
import { lakeShapes } from './features/lake-shapes.ts';
import { lakeKey, type Shown, transectZooms } from './features/map-content.ts';
import { plannedShapes } from './features/planned.ts';
import { residualShapes } from './features/residuals.ts';
import { transectShapes } from './features/transects.ts';
import type { LakeMap } from './lake-map.ts';
import type { ShapeSource, TransectZooms } from './layer-parts.ts';

const NONE = shapes([]);

export interface Content {
  labels: readonly BedLabel[];
  zooms: TransectZooms;
  /** by label of the transect */
  detected: ReadonlyMap<string, Detected>;
  /** some finding has a place on the map */
  findings: boolean;
  /** some planned transect has a place on the map */
  planned: boolean;
}

export function useContent(
  map: LakeMap | null,
  shown: Shown | null,
  judged: JudgedView | null,
  result: ResultView | null,
  units: Units,
): Content {
  const classes = shown?.analysis.substrates ?? [];
  const detected = useMemo(
    () => (shown ? detectedByTransect(shown.segments, shown.survey) : new Map<string, Detected>()),
    [shown],
  );
  const key = useMemo(
    () => (shown ? `${shown.analysis.substrates.join()}|${lakeKey(shown.lake)}` : ''),
    [shown],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the lake and the classes
  const lake = useMemo(() => (shown ? lakeShapes(shown.lake, classes, units) : null), [key, units]);
  const transects = useMemo(
    () => (shown ? transectShapes({ ...shown, detected, classes }) : null),
    [shown, detected, classes],
  );
  const zooms = useMemo(() => transectZooms(shown?.placed ?? []), [shown]);
  const findings = useMemo(() => (judged ? findingShapes(judged) : NONE), [judged]);
  const residuals = useMemo(() => residualShapes(shown?.placed ?? []), [shown]);
  const planned = judged?.planned;
  const lines = useMemo(
    () =>
      shapes([
        ...(transects?.lines.features ?? []),
        ...residuals.lines.features,
        ...plannedShapes(plannedPlaces(planned ?? [])),
      ]),
    [transects, residuals, planned],
  );
  const meanP = meanDetection(result)?.p ?? null;
  const counts = useMemo(
    () => (shown ? countShapes(shown.placed, detected, meanP) : NONE),
    [shown, detected, meanP],
  );
  const departed = useMemo(() => {
    const all = result && departures(result);
    return shown && all ? departureShapes(shown.placed, all) : NONE;
  }, [shown, result]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: classes change with the lake's key
  useEffect(() => {
    if (!map) return;
    const labels = distinctLabels([...(lake?.labels ?? []), ...(transects?.labels ?? [])], classes);
    void map.setPatterns(labels, classes);
  }, [map, lake, transects]);

  useShapes(map, 'lake', lake?.shapes);
  useShapes(map, 'transects', lines);
  useShapes(map, 'marks', transects?.marks);
  useShapes(map, 'tickLabels', transects?.tickLabels);
  useShapes(map, 'clusters', transects?.clusters);
  useShapes(map, 'residualPoints', residuals.points);
  useShapes(map, 'counts', counts);
  useShapes(map, 'departures', departed);
  useShapes(map, 'findings', findings);
  useEffect(() => void map?.setTransectZooms(zooms), [map, zooms]);
  return {
    labels: lake?.labels ?? [],
    zooms,
    detected,
    findings: findings.features.length > 0,
    planned: lines.features.some(({ properties }) => properties.kind === 'planned'),
  };
}

function useShapes(map: LakeMap | null, source: ShapeSource, data: Shapes | undefined): void {
  useEffect(() => void map?.setShapes(source, data ?? NONE), [map, source, data]);
}
