/** The pointer and the keyboard's crosshair on the map: which transect, which finding, what the bed holds there. */

import { useEffect, useMemo, useRef, useState } from 'react';
import type { LngLat } from '../../../shared/survey.ts';
import type { Spot } from '../../present/spot.ts';
import { type Detected, type TransectCard, transectCard } from '../../present/transect-counts.ts';
import { useApp } from '../state/app-context.tsx';
import { findingShapes } from './features/findings.ts';
import type { Shown } from './features/map-content.ts';
import type { LakeMap } from './lake-map.ts';
import type { Pixel } from './MapCards.tsx';
import { findingsOnScreen, transectsOnScreen } from './on-screen.ts';
import { nearestLine } from './pointing.ts';
import { type SpotRead, useCrosshair, useReader } from './use-reading.ts';

const REACH_PX = 9;
const REACH_FINDING_PX = 14;

export interface Pointing {
  /** the crosshair is shown: the map has the keyboard's focus */
  crosshair: boolean;
  /** a ring marks this spot */
  mark: LngLat | null;
  spot: SpotRead | null;
  transect: (TransectCard & { at: LngLat }) | null;
  /** what is read out */
  said: Spot | null;
  pointed(at: LngLat | null, pixel: Pixel): void;
  pressed(at: LngLat, pixel: Pixel): void;
}

export function usePointing(
  map: LakeMap | null,
  shown: Shown | null,
  detected: ReadonlyMap<string, Detected>,
): Pointing {
  const { state, actions, core } = useApp();
  const { focus, station } = state;
  const [hovered, setHovered] = useState<SpotRead | null>(null);
  const [kept, setKept] = useState<SpotRead | null>(null);
  const [over, setOver] = useState<{ transect: string; at: LngLat } | null>(null);
  /** the transect that was in focus before the pointer came over a transect */
  const before = useRef<string | null>(null);
  // the worker answers from the last estimate
  const lake = state.result?.lake;
  const hasBed = lake !== undefined && (lake.outline !== null || lake.substrate !== null);
  const readsOnHover = station === 'lake' || station === 'density';

  const hover = useReader(core, setHovered);
  const keep = useReader(core, setKept);

  const findings = useMemo(
    () => (state.judged ? findingShapes(state.judged).features : []),
    [state.judged],
  );

  // a kept spot is read again when the estimate changes
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again for each result
  useEffect(() => keep(focus.spot), [keep, focus.spot, state.result]);

  // a card of another station does not stay
  useEffect(() => {
    if (!readsOnHover) hover(null);
  }, [readsOnHover, hover]);

  const crosshair = useCrosshair(map, {
    over: (at) => hover(hasBed ? at : null),
    taken: (at) => actions.setFocus({ spot: at }),
    dropped: () => actions.setFocus({ spot: null, transect: null }),
  });

  const transectAt = (pixel: Pixel): string | null =>
    map && shown
      ? nearestLine(transectsOnScreen(map, shown.placed), pixel.x, pixel.y, REACH_PX)
      : null;
  const findingAt = (pixel: Pixel): number | null =>
    map && station === 'survey'
      ? nearestLine(findingsOnScreen(map, findings), pixel.x, pixel.y, REACH_FINDING_PX)
      : null;

  const leaveTransect = (): void => {
    if (over === null) return;
    setOver(null);
    actions.setFocus({ transect: before.current });
  };

  const pointedAt = over && shown?.placed.find((p) => p.transect.transect === over.transect);
  return {
    crosshair,
    mark: focus.spot,
    spot: over === null ? (overLake(hovered, crosshair) ?? kept) : null,
    transect: pointedAt
      ? { ...transectCard(pointedAt, detected.get(over.transect)), at: over.at }
      : null,
    said: crosshair ? (hovered?.spot ?? null) : (kept?.spot ?? null),
    pointed(at, pixel) {
      if (at === null) {
        hover(null);
        leaveTransect();
        return;
      }
      const finding = findingAt(pixel);
      const here = finding === null ? transectAt(pixel) : null;
      map?.setCursor(
        finding !== null || here !== null ? 'pointer' : hasBed && readsOnHover ? 'crosshair' : '',
      );
      if (here !== null) {
        hover(null);
        if (here === over?.transect) return;
        if (over === null) before.current = focus.transect;
        setOver({ transect: here, at });
        actions.setFocus({ transect: here });
        return;
      }
      leaveTransect();
      if (readsOnHover && hasBed) hover(at);
    },
    pressed(at, pixel) {
      const finding = findingAt(pixel);
      if (finding !== null) {
        actions.setFocus({ finding: finding });
        return;
      }
      const here = transectAt(pixel);
      if (here !== null) {
        before.current = here;
        actions.setFocus({ transect: here });
        return;
      }
      actions.setFocus({ spot: hasBed ? at : null, transect: null });
      before.current = null;
    },
  };
}

/** The pointer on its way over land needs no card; the crosshair says where it is. */
function overLake(hovered: SpotRead | null, crosshair: boolean): SpotRead | null {
  return hovered?.spot.outside === 'off the lake' && !crosshair ? null : hovered;
}
