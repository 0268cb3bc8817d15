/** Has the density layer painted by the worker whenever the result, the theme or what is lit changes. */

import { useEffect, useMemo, useState } from 'react';
import type { PaintOptions, ResultView } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { lineString, shapes } from './features/geo.ts';
import type { LakeMap } from './lake-map.ts';
import { latestOnly } from './latest-only.ts';
import { showsSurface } from './stations.ts';

/** The classes of the surface on the map, by the values at which they begin; null when there is no surface. */
export function useDensity(
  map: LakeMap | null,
  thresholdPerM2: number,
  detected: boolean,
): readonly number[] | null {
  const { state, core } = useApp();
  const { result, dark, focus, station, mapLook } = state;
  const [breaks, setBreaks] = useState<readonly number[] | null>(null);
  const paint = useMemo(
    () =>
      latestOnly(
        async (options: PaintOptions) => {
          const image = await core.paint(options);
          setBreaks(image?.breaks ?? null);
          await map?.setDensity(image);
        },
        (error) => console.error('The density layer was not painted.', error),
      ),
    [map, core],
  );
  useEdge(map, result);
  const band = focus.depthM === null ? null : Math.floor(focus.depthM);
  const { surface, stretched } = mapLook;
  // without a detection there is no chance and no CV to show
  const painted = detected ? surface : 'density';
  // another threshold changes nothing but the chance
  const paintedThreshold = painted === 'chance' ? thresholdPerM2 : null;
  const seen = showsSurface(station);
  const grid = result?.grid ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: painted anew for each result
  useEffect(() => {
    if (!map) return;
    if (grid === null) {
      setBreaks(null);
      void map.setDensity(null);
      return;
    }
    if (!seen) return;
    paint({
      dark,
      surface: painted,
      stretched,
      thresholdPerM2,
      depthM: band === null ? null : { from: band, to: band + 1 },
      substrate: focus.substrate,
    });
  }, [map, result, paint, seen, dark, band, focus.substrate, painted, stretched, paintedThreshold]);
  return breaks;
}

/** The surveyed domain's edge, traced by the worker once for each result. */
function useEdge(map: LakeMap | null, result: ResultView | null): void {
  const { core } = useApp();
  useEffect(() => {
    if (!map) return;
    let wanted = true;
    const draw = async (): Promise<void> => {
      const rings = result?.grid ? await core.edge() : null;
      if (wanted) await map.setShapes('edge', shapes((rings ?? []).map((r) => lineString(r, {}))));
    };
    draw().catch((error) => console.error('The edge of the surveyed bed was not drawn.', error));
    return () => {
      wanted = false;
    };
  }, [map, result, core]);
}
