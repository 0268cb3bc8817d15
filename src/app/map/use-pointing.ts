/** The pointer and the keyboard's crosshair on the map: which rope, which finding, what the bed holds there. */

import { useEffect, useMemo, useRef, useState } from 'react';
import type { LngLat } from '../../../shared/survey.ts';
import type { Spot } from '../../present/spot.ts';
import { useApp } from '../state/app-context.tsx';
import { faultShapes } from './features/faults.ts';
import type { Shown } from './features/map-content.ts';
import { type FoundOnRope, foundOn } from './features/ropes.ts';
import type { LakeMap } from './lake-map.ts';
import { nearestLine } from './pointing.ts';
import { faultsOnScreen, type RopeWords, ropesOnScreen, ropeWords } from './rope-words.ts';
import type { Pixel } from './SpotCard.tsx';
import { type SpotRead, useCrosshair, useReader } from './use-reading.ts';

const REACH_PX = 9;
const REACH_FAULT_PX = 14;

export interface Pointing {
  /** the crosshair is shown: the map has the keyboard's focus */
  crosshair: boolean;
  /** a ring marks this spot */
  mark: LngLat | null;
  spot: SpotRead | null;
  rope: (RopeWords & { at: LngLat }) | null;
  /** what is read out */
  said: Spot | null;
  pointed(at: LngLat | null, pixel: Pixel): void;
  pressed(at: LngLat, pixel: Pixel): void;
}

export function usePointing(map: LakeMap | null, shown: Shown | null): Pointing {
  const { state, actions, core } = useApp();
  const { focus, station } = state;
  const [hovered, setHovered] = useState<SpotRead | null>(null);
  const [kept, setKept] = useState<SpotRead | null>(null);
  const [rope, setRope] = useState<{ transect: string; at: LngLat } | null>(null);
  /** the transect that was in focus before the pointer came over a rope */
  const before = useRef<string | null>(null);
  // the worker answers from the last estimate
  const lake = state.result?.lake;
  const hasBed = lake !== undefined && (lake.outline !== null || lake.substrate !== null);
  const readsOnHover = station === 'lake' || station === 'density';

  const hover = useReader(core, setHovered);
  const keep = useReader(core, setKept);

  const found = useMemo(
    () => (shown ? foundOn(shown.segments, shown.survey) : new Map<string, FoundOnRope>()),
    [shown],
  );
  const faults = useMemo(
    () => (state.judged ? faultShapes(state.judged).features : []),
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

  const ropeAt = (pixel: Pixel): string | null =>
    map && shown ? nearestLine(ropesOnScreen(map, shown.placed), pixel.x, pixel.y, REACH_PX) : null;
  const faultAt = (pixel: Pixel): number | null =>
    map && station === 'survey'
      ? nearestLine(faultsOnScreen(map, faults), pixel.x, pixel.y, REACH_FAULT_PX)
      : null;

  const leaveRope = (): void => {
    if (rope === null) return;
    setRope(null);
    actions.setFocus({ transect: before.current });
  };

  const words = shown && rope && ropeWords(rope.transect, shown.placed, found);
  return {
    crosshair,
    mark: focus.spot,
    spot: rope === null ? (overLake(hovered, crosshair) ?? kept) : null,
    rope: words && rope && { ...words, at: rope.at },
    said: crosshair ? (hovered?.spot ?? null) : (kept?.spot ?? null),
    pointed(at, pixel) {
      if (at === null) {
        hover(null);
        leaveRope();
        return;
      }
      const fault = faultAt(pixel);
      const here = fault === null ? ropeAt(pixel) : null;
      map?.setCursor(
        fault !== null || here !== null ? 'pointer' : hasBed && readsOnHover ? 'crosshair' : '',
      );
      if (here !== null) {
        hover(null);
        if (here === rope?.transect) return;
        if (rope === null) before.current = focus.transect;
        setRope({ transect: here, at });
        actions.setFocus({ transect: here });
        return;
      }
      leaveRope();
      if (readsOnHover && hasBed) hover(at);
    },
    pressed(at, pixel) {
      const fault = faultAt(pixel);
      if (fault !== null) {
        actions.setFocus({ finding: fault });
        return;
      }
      const here = ropeAt(pixel);
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
