/** The pointer and the keyboard's crosshair on the map: which transect, which finding, what the bed holds there. */

import { useEffect, useMemo, useRef, useState } from 'react';
import type { LngLat } from '../../../shared/survey.ts';
import { isWithin, type Spot } from '../../present/spot.ts';
import { type Detected, type TransectCard, transectCard } from '../../present/transect-counts.ts';
import { useApp } from '../state/app-context.tsx';
import type { Pixel } from './card-place.ts';
import { findingShapes } from './features/findings.ts';
import { boundsOf } from './features/geo.ts';
import type { Shown } from './features/map-content.ts';
import type { LakeMap } from './lake-map.ts';
import { findingsOnScreen, transectsOnScreen } from './on-screen.ts';
import { nearestLine } from './pointing.ts';
import { type SpotRead, useCrosshair, useReader } from './use-reading.ts';

const REACH_PX = 9;
const REACH_FINDING_PX = 14;

export interface Place {
  at: LngLat;
  spot: Spot | null;
  /** place in the list of treatment areas */
  area: number | null;
  pinned: boolean;
}

export interface Pointing {
  /** the crosshair is shown: the map has the keyboard's focus */
  crosshair: boolean;
  /** a ring marks this spot */
  mark: LngLat | null;
  /** what the card tells of: a spot, a treatment area, or a spot in one */
  place: Place | null;
  transect: (TransectCard & { at: LngLat }) | null;
  /** what is read out */
  said: Spot | null;
  /** the pinned card goes */
  letGo(): void;
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
    taken: (at) => {
      if (station !== 'areas') actions.setFocus({ spot: at });
    },
    dropped: () => actions.setFocus({ spot: null, transect: null, treatment: null }),
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

  const areaAt = (at: LngLat): number | null => {
    if (station !== 'lake' || !shown) return null;
    const found = shown.lake.treatments.findIndex((area) => isWithin(area.polygons, at));
    return found < 0 ? null : found;
  };

  /** What was pinned, until it is let go of; else under the pointer. */
  function placeOf(): Place | null {
    const area = focus.treatment;
    if (kept !== null) return { ...kept, area, pinned: true };
    const here = overLake(hovered, crosshair);
    if (area === null) return here && { ...here, area, pinned: false };
    const polygons = shown?.lake.treatments[area]?.polygons;
    const box = polygons && boundsOf(polygons.flat(2));
    if (!box) return null;
    const at: LngLat = [(box.west + box.east) / 2, (box.south + box.north) / 2];
    return { at, spot: null, area, pinned: true };
  }

  const pointedAt = over && shown?.placed.find((p) => p.transect.transect === over.transect);
  return {
    crosshair,
    mark: focus.spot,
    place: over === null ? placeOf() : null,
    letGo: () => actions.setFocus({ spot: null, treatment: null }),
    transect: pointedAt
      ? { ...transectCard(pointedAt, detected.get(over.transect)), at: over.at }
      : null,
    said: crosshair ? (hovered?.spot ?? null) : (kept?.spot ?? null),
    pointed(at, pixel) {
      if (station === 'areas') return; // there the hand works on areas
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
      if (station === 'areas') return;
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
      actions.setFocus({ spot: hasBed ? at : null, transect: null, treatment: areaAt(at) });
      before.current = null;
    },
  };
}

/** The pointer on its way over land needs no card; the crosshair says where it is. */
function overLake(hovered: SpotRead | null, crosshair: boolean): SpotRead | null {
  return hovered?.spot.outside === 'off the lake' && !crosshair ? null : hovered;
}
