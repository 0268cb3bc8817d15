/**
 * What the hand does with areas before it is kept: which one is chosen, what is being drawn or moved, and the numbers that
 * follow. Beside the page's state, so that a drag does not draw the whole page anew at every step.
 */

import { useSyncExternalStore } from 'react';
import type { AreaNumbers, AreasFile, AreasHeld, NamedArea } from '../../../shared/areas.ts';
import type { LngLat, LngLatPolygon } from '../../../shared/survey.ts';
import type { Made } from '../area-contract.ts';
import type { AreaFile, PlacedArea } from './area-edits.ts';

/** An area by its place in its file. */
export interface ChosenArea {
  file: AreaFile;
  place: number;
}

/** Place of a corner among the polygons of an area, their rings, and their corners. */
export type CornerPath = readonly [polygon: number, ring: number, corner: number];

export interface Desk {
  chosen: ChosenArea | null;
  /** looked at in the table of corners, and marked on the map */
  corner: CornerPath | null;
  /** corners so far, and where the pointer is; null while nothing is drawn */
  drawing: { file: AreaFile; corners: readonly LngLat[]; pointer: LngLat | null } | null;
  /** the chosen area as the hand holds it; null while it does not */
  moving: LngLatPolygon[] | null;
  /** of what is drawn or moved, from the worker */
  live: Made<{ numbers: AreaNumbers }> | null;
  /** of all treatment areas, and the list that they are of; null until they are there */
  held: { of: readonly PlacedArea[]; made: Made<{ held: AreasHeld }> } | null;
  /** why the last change was not kept, in words */
  problem: string | null;
  /** the proposal that is looked at, by its place: the proposals, then the compact area */
  proposal: number;
  /** thickness of the layer whose volume is asked for, m */
  layerM: number | null;
}

export const EMPTY_DESK: Desk = {
  chosen: null,
  corner: null,
  drawing: null,
  moving: null,
  live: null,
  held: null,
  problem: null,
  proposal: 0,
  layerM: null,
};

let desk: Desk = EMPTY_DESK;
const listeners = new Set<() => void>();

export function deskNow(): Desk {
  return desk;
}

export function setDesk(change: Partial<Desk>): void {
  desk = { ...desk, ...change };
  for (const told of listeners) told();
}

/** Nothing in hand; what is known and asked for stays. */
export function emptyHand(): Desk {
  const { layerM, held, proposal } = desk;
  return { ...EMPTY_DESK, layerM, held, proposal };
}

/** Another area, or none: what was in hand is dropped. */
export function chooseArea(chosen: ChosenArea | null): void {
  setDesk({ ...emptyHand(), chosen });
}

export function beginDrawing(file: AreaFile): void {
  setDesk({ ...emptyHand(), drawing: { file, corners: [], pointer: null } });
}

/** What can be adopted, in the order of `proposal`. */
export function proposedShapes({ proposals, compact }: AreasFile): NamedArea[] {
  return compact === null ? [...proposals] : [...proposals, compact];
}

/** Tells of every change; returns what ends that. */
export function onDesk(told: () => void): () => void {
  return subscribe(told);
}

/** One part of the desk; the same value does not draw again. */
export function useDesk<T>(part: (desk: Desk) => T): T {
  return useSyncExternalStore(
    subscribe,
    () => part(desk),
    () => part(EMPTY_DESK),
  );
}

function subscribe(told: () => void): () => void {
  listeners.add(told);
  return () => listeners.delete(told);
}
