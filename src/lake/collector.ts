/**
 * Collects the pieces of the bed while the grid is walked: in each cell what of the outline each substrate polygon
 * covers, cut by depth. Where polygons overlap the first one counts, and the overlap is measured.
 */

import { type GridFrame, REASONS } from '../../shared/survey.ts';
import type { DepthModel } from './depth.ts';
import { DepthTile, TILE } from './depth.ts';
import { DepthCutter, type DepthPiece } from './depth-cut.ts';
import { OUTLINE, PATCH, WITHIN } from './maps.ts';
import { isFar, MOST_LISTED } from './overlaps.ts';
import { PieceList } from './pieces.ts';
import {
  intersect,
  NOTHING,
  type Region,
  regionArea,
  type SignedRing,
  without,
} from './regions.ts';
import type { Block, CellRing, Cover } from './ring-stack.ts';
import { carryOverShore } from './shore.ts';
import type { GridVisitor } from './walk.ts';

export interface CollectorInput {
  frame: GridFrame;
  depth: DepthModel;
  /** by label: OUTLINE, WITHIN or PATCH */
  layerOf: readonly number[];
  /** whether the bed is restricted to the polygons of WITHIN */
  restricted: boolean;
  /** by label: area of the polygon in cells */
  areaOf: readonly number[];
  /** by label of a patch: index of its habitat, and its reason of being outside (0 = none but depth) */
  habitatOf: readonly number[];
  reasonOf: readonly number[];
  depthFromM: number;
  depthToM: number;
  /** beyond so many the map is refused */
  mostPieces: number;
}

const DEPTH = REASONS.indexOf('depth');
const UNMAPPED = REASONS.indexOf('depth unmapped');

export class BedCollector implements GridVisitor {
  readonly pieces: PieceList;
  readonly cellDepthM: Float32Array;
  /** in cells */
  bedArea = 0;
  mappedArea = 0;
  /**
   * Area that two polygons share, in cells, by first label × number of labels + second; a polygon of the outline is
   * named twice for what it shares with those before it.
   */
  readonly overlaps = new Map<number, number>();

  /** whether the bed fell into more pieces than are kept; the rest of it was not looked at */
  tooSteep = false;

  /** pairs of polygons that share more than is tolerated */
  private farOverlaps = 0;

  private readonly input: CollectorInput;
  private readonly tile: DepthTile;
  private readonly cutter: DepthCutter;
  private readonly depths = new Float64Array(5);
  private readonly cellM2: number;
  private column = 0;
  private row = 0;
  /** of the open cell: patches met, and the rings of what they cover */
  private patches: number[] = [];
  private regions: SignedRing[][] = [];
  private shoreRings: CellRing[] = [];
  private shoreCover: Cover = [];
  private patch = 0;

  constructor(input: CollectorInput) {
    this.input = input;
    const { frame, depth, depthFromM, depthToM } = input;
    this.pieces = new PieceList(Math.min(frame.nx * frame.ny, 1 << 20) + 1024);
    this.cellDepthM = new Float32Array(frame.nx * frame.ny).fill(Number.NaN);
    this.tile = new DepthTile(depth, frame);
    this.cutter = new DepthCutter(depthFromM, depthToM);
    this.cellM2 = frame.cellM * frame.cellM;
  }

  block({ x0, y0, x1, y1 }: Block, cover: Cover): void {
    const cells = (x1 - x0) * (y1 - y0);
    this.bedArea += cells;
    const patch = this.firstPatch(cover, cells);
    if (patch >= 0) this.mappedArea += cells;
    // tile by tile, as depths are worked out
    for (let tileRow = y0 - (y0 % TILE); tileRow < y1; tileRow += TILE) {
      for (let tileColumn = x0 - (x0 % TILE); tileColumn < x1; tileColumn += TILE) {
        for (let row = Math.max(y0, tileRow); row < Math.min(y1, tileRow + TILE); row++) {
          const end = Math.min(x1, tileColumn + TILE);
          if (this.done) return;
          for (let column = Math.max(x0, tileColumn); column < end; column++) {
            this.column = column;
            this.row = row;
            this.readDepths();
            if (patch >= 0) this.addPieces(patch, null);
          }
        }
      }
    }
  }

  openCell(column: number, row: number, rings: readonly CellRing[], cover: Cover): void {
    this.column = column;
    this.row = row;
    this.patches = [];
    this.regions = [];
    this.shoreRings = rings.filter((ring) => this.input.layerOf[ring.label] === OUTLINE);
    this.shoreCover = cover.filter((_, i) => this.input.layerOf[cover[i - (i % 2)]] === OUTLINE);
  }

  part({ x0, y0, x1, y1 }: Block, rings: readonly CellRing[], cover: Cover): void {
    const all: SignedRing = { sign: 1, xy: [x0, y0, x1, y0, x1, y1, x0, y1] };
    const regions = regionsByLabel(all, rings, cover);
    let bed = this.union(regions, OUTLINE);
    if (this.input.restricted) bed = intersect(bed, this.union(regions, WITHIN));
    this.bedArea += regionArea(bed);
    const before: [number, Region][] = [];
    for (const [label, region] of regions) {
      if (this.input.layerOf[label] !== PATCH) continue;
      let left = intersect(bed, region);
      for (const [other, taken] of before) {
        const common = intersect(left, taken);
        if (common === NOTHING) continue;
        this.addOverlap(other, label, regionArea(common));
        left = without(left, common);
      }
      before.push([label, region]);
      if (left === NOTHING) continue;
      this.mappedArea += regionArea(left);
      this.addToCell(label, left.rings);
    }
  }

  closeCell(): void {
    this.readDepths();
    for (const [k, patch] of this.patches.entries()) this.addPieces(patch, this.regions[k]);
    this.shoreRings = [];
  }

  /** The polygons of a layer together; they may touch, and what two of them share is measured. */
  private union(regions: [number, Region][], layer: number): Region {
    let all = NOTHING;
    for (const [label, region] of regions) {
      if (this.input.layerOf[label] !== layer) continue;
      if (all === NOTHING) {
        all = region;
        continue;
      }
      const common = intersect(region, all);
      if (common !== NOTHING) this.addOverlap(label, label, regionArea(common));
      const more = without(region, common);
      if (more !== NOTHING) all = { full: false, rings: [...all.rings, ...more.rings] };
    }
    return all;
  }

  private firstPatch(cover: Cover, cells: number): number {
    let first = -1;
    let outline = -1;
    for (let i = 0; i < cover.length; i += 2) {
      const label = cover[i];
      if (cover[i + 1] <= 0) continue;
      if (this.input.layerOf[label] === PATCH && (first < 0 || label < first)) first = label;
      if (this.input.layerOf[label] === OUTLINE) {
        if (outline >= 0) this.addOverlap(label, label, cells);
        outline = label;
      }
    }
    for (let i = 0; i < cover.length; i += 2) {
      const label = cover[i];
      if (this.input.layerOf[label] === PATCH && cover[i + 1] > 0 && label !== first)
        this.addOverlap(first, label, cells);
    }
    return first;
  }

  /** The map is refused, and enough is known to say why: the rest would take very long. */
  get done(): boolean {
    return this.tooSteep || (!this.input.restricted && this.farOverlaps > MOST_LISTED);
  }

  private addOverlap(first: number, second: number, area: number): void {
    const { layerOf, areaOf, frame } = this.input;
    const key = first * layerOf.length + second;
    const before = this.overlaps.get(key) ?? 0;
    this.overlaps.set(key, before + area);
    const cellM2 = frame.cellM ** 2;
    const smallerM2 = Math.min(areaOf[first], areaOf[second]) * cellM2;
    const far = (cells: number): boolean => isFar(cells * cellM2, smallerM2);
    if (far(before + area) && !far(before)) this.farOverlaps++;
  }

  private addToCell(patch: number, rings: SignedRing[]): void {
    const known = this.patches.indexOf(patch);
    if (known >= 0) for (const ring of rings) this.regions[known].push(ring);
    else {
      this.patches.push(patch);
      this.regions.push([...rings]);
    }
  }

  /** Depths of the current cell, carried over its shoreline if it has one. */
  private readDepths(): void {
    const { frame, depth } = this.input;
    const { column, row, depths } = this;
    this.tile.read(column, row, depths);
    if (this.shoreRings.length > 0) {
      carryOverShore(
        { column, row, rings: this.shoreRings, cover: this.shoreCover },
        depths,
        depth,
        frame,
      );
    }
    const centre = depths[4];
    this.cellDepthM[row * frame.nx + column] = Math.max(0, centre);
  }

  private addPieces(patch: number, region: SignedRing[] | null): void {
    this.patch = patch;
    this.cutter.cut(region, this.depths, this.tell);
    this.tooSteep ||= this.pieces.length > this.input.mostPieces;
  }

  private readonly tell = (piece: DepthPiece): void => {
    const { frame, habitatOf, reasonOf } = this.input;
    let reason = reasonOf[this.patch];
    if (reason === 0 && piece.place === 'beyond') reason = DEPTH;
    if (reason === 0 && piece.place === 'unmapped') reason = UNMAPPED;
    this.pieces.push(
      this.row * frame.nx + this.column,
      habitatOf[this.patch],
      piece.area * this.cellM2,
      piece.depthM,
      reason,
      piece.band,
    );
  };
}

/** What each polygon covers of a part of a cell, in the order of labels. */
function regionsByLabel(
  all: SignedRing,
  rings: readonly CellRing[],
  cover: Cover,
): [number, Region][] {
  const regions: [number, Region][] = [];
  const at = (label: number): number => {
    let place = 0;
    while (place < regions.length && regions[place][0] < label) place++;
    return place;
  };
  for (let i = 0; i < cover.length; i += 2) {
    const n = cover[i + 1];
    const sign = n > 0 ? 1 : -1;
    const copies = Array.from({ length: Math.abs(n) }, (): SignedRing => ({ sign, xy: all.xy }));
    regions.splice(at(cover[i]), 0, [cover[i], { full: n === 1, rings: copies }]);
  }
  for (const { label, xy } of rings) {
    const place = at(label);
    const known = regions[place];
    if (known?.[0] !== label)
      regions.splice(place, 0, [label, { full: false, rings: [{ sign: 1, xy }] }]);
    else {
      known[1].full = false;
      known[1].rings.push({ sign: 1, xy });
    }
  }
  return regions;
}
