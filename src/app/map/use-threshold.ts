/** The density threshold that is looked at, and the area above it. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import type { AreaAboveRow } from '../../present/area-above.ts';
import { useApp } from '../state/app-context.tsx';
import { keepThreshold, keptThreshold } from '../state/kept-threshold.ts';
import { latestOnly } from './latest-only.ts';

/** Where neither the reader nor the analysis names one: a mussel on each square metre. */
const USUAL_PER_M2 = 1;
/** While a threshold is still moved its area is not asked for: the worker would paint only once it has it (60 ms on the demo lake). */
const STILL_MS = 150;

export interface Threshold {
  perM2: number;
  /** what analysis.json says, and so report and files */
  inAnalysis: number | null;
  set(perM2: number): void;
}

/** Set beside the legend, else what was set there at an earlier visit, else the analysis' own. */
export function useThreshold(): Threshold {
  const { state, actions } = useApp();
  const survey = state.work?.name ?? '';
  const inAnalysis = state.result?.analysis.map.threshold_per_m2 ?? null;
  const kept = useMemo(() => keptThreshold(survey, inAnalysis), [survey, inAnalysis]);
  const set = useCallback(
    (perM2: number) => {
      keepThreshold(survey, { perM2, inAnalysis });
      actions.setMapLook({ thresholdPerM2: perM2 });
    },
    [survey, inAnalysis, actions],
  );
  const perM2 = state.mapLook.thresholdPerM2 ?? kept ?? inAnalysis ?? USUAL_PER_M2;
  return { perM2, inAnalysis, set };
}

/** Found by the worker from the last fit; null until it is there, and where there is none. */
export function useAreaAbove(perM2: number, wanted: boolean): AreaAboveRow | null {
  const { state, core } = useApp();
  const [row, setRow] = useState<AreaAboveRow | null>(null);
  const ask = useMemo(
    () =>
      latestOnly(
        async (threshold: number) => setRow(await core.areaAbove(threshold)),
        (error) => {
          setRow(null);
          console.error('The area above the threshold was not found.', error);
        },
      ),
    [core],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked anew for each result
  useEffect(() => {
    if (!wanted) return;
    const timer = setTimeout(() => ask(perM2), STILL_MS);
    return () => clearTimeout(timer);
  }, [ask, perM2, wanted, state.result]);
  return row?.threshold_per_m2 === perM2 ? row : null;
}
