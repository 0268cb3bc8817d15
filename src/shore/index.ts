/**
 * Where transects and bed lie along the shore, and which bed lies far from every transect. The bed is laid before the
 * transects are placed, so what of it is far can only be told here.
 */

import { greatestGap } from '../../models/index.ts';
import {
  type Bed,
  type PlacedTransect,
  REASONS,
  type Shore,
  type ShorePlace,
  type XY,
  type XYPolygon,
} from '../../shared/survey.ts';
import { fillCells } from './cells.ts';
import { farCells, orderAlong, usualSpacing } from './far.ts';
import { edgesNear, nearestOf, nearestOnShore, shoreRings } from './rings.ts';

/** @returns null without an outline or a transect */
export function alongShore(
  outline: readonly XYPolygon[] | null,
  placed: readonly PlacedTransect[],
): Shore | null {
  const rings = outline === null ? null : shoreRings(outline);
  if (rings === null || placed.length === 0) return null;
  const starts = placed.map((p): XY => p.start);
  const places = starts.map((start) => nearestOnShore(rings, start));
  const order = orderAlong(places, rings.lengthsM.length);
  const spacingM = usualSpacing(starts, order);
  const main = order.reduce(
    (most, own, ring) => (own.length > order[most].length ? ring : most),
    0,
  );
  const shareOf = (at: ShorePlace): number => at.alongM / rings.lengthsM[main];
  const shareAt = (place: XY): number => shareOf(nearestOnShore(rings, place, main));
  return {
    shares: new Map(placed.map((p) => [p.transect.transect, shareAt(p.start)])),
    shareAt,
    cellPlaces(frame, count) {
      const placesOf = new Uint8Array(frame.nx * frame.ny);
      fillCells(
        frame,
        placesOf,
        (middle, reachM) => edgesNear(rings, middle, reachM, main),
        (near, x, y) =>
          Math.min(count - 1, Math.floor(count * shareOf(nearestOf(rings, near, x, y)))),
      );
      return placesOf;
    },
    rings: rings.lengthsM.map((lengthM, ring) => {
      const transects = order[ring].map((t) => ({
        transect: placed[t].transect.transect,
        alongM: places[t].alongM,
      }));
      return {
        lengthM,
        transects,
        greatestGapM: greatestGap(
          transects.map((t) => t.alongM),
          lengthM,
        ),
      };
    }),
    spacingM,
    farCells: (frame) => (spacingM === null ? null : farCells(frame, placed, spacingM)),
  };
}

/** How far along the longest ring of the shore the nearest point to a place lies, from 0 to 1; null without an outline. */
export function alongLongestRing(
  outline: readonly XYPolygon[] | null,
): ((place: XY) => number) | null {
  const rings = outline === null ? null : shoreRings(outline);
  if (rings === null) return null;
  const { lengthsM } = rings;
  const main = lengthsM.reduce((most, m, i) => (m > lengthsM[most] ? i : most), 0);
  return (place) => nearestOnShore(rings, place, main).alongM / lengthsM[main];
}

const FAR = REASONS.indexOf('far from any transect');

/** The bed with what is far from every transect outside of the surveyed habitat; the bed given stays as it is. */
export function withoutFar(bed: Bed, shore: Shore): Bed {
  const far = shore.farCells(bed.frame);
  if (far === null) return bed;
  const { pieces } = bed;
  const reason = new Uint8Array(pieces.reason);
  for (let i = 0; i < pieces.count; i++)
    if (reason[i] === 0 && far[pieces.cell[i]] === 1) reason[i] = FAR;
  return { ...bed, pieces: { ...pieces, reason } };
}
