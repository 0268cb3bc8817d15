/**
 * Density, the chance of a density, or its CV of every cell as pixels for the map: in classes, density faded where the interval
 * is wide, transparent elsewhere: there the map's own hatch of the mapped bed shows through, as fine at every zoom.
 */

import { normalQuantile } from '../../../models/index.ts';
import type { Surface } from '../../../shared/result.ts';
import type { Bed } from '../../../shared/survey.ts';
import {
  CHANCE_BREAKS,
  CHANCE_RAMP,
  CLASS_BREAKS,
  CV_BREAKS,
  CV_RAMP,
  classColour,
  classOf,
  mix,
  NO_VALUE,
  RAMP,
  rgbOf,
  stretchedBreaks,
  WATER,
} from '../../present/ramp.ts';
import { cvOfRatio, type IntervalBasis } from '../../present/unsure.ts';
import type { PaintOptions } from '../contract.ts';
import type { PaintFrame } from './paint-frame.ts';

/** Values at which the next class begins. */
export function paintBreaks(
  { surface: name, stretched }: Pick<PaintOptions, 'surface' | 'stretched'>,
  surface: Surface,
): readonly number[] {
  if (name === 'chance') return CHANCE_BREAKS;
  if (name === 'cv') return CV_BREAKS;
  const range = stretched ? densityRange(surface.densityPerM2) : null;
  return range === null ? CLASS_BREAKS : stretchedBreaks(range.from, range.to);
}

/** RGBA, row by row from the top. */
export function paintPixels(
  frame: PaintFrame,
  bed: Bed,
  surface: Surface,
  options: PaintOptions,
  basis: IntervalBasis,
): Uint8ClampedArray<ArrayBuffer> {
  const looks = cellLooks(bed, surface, options, basis);
  const colours = lookColours(options);
  const { width, height } = frame;
  const { nx, ny } = bed.frame;
  const buffer = new ArrayBuffer(width * height * 4);
  const pixels = new Uint32Array(buffer);
  const columns = Int32Array.from({ length: width }, (_, i) =>
    Math.min(nx - 1, Math.floor(((i + 0.5) * nx) / width)),
  );
  for (let j = 0; j < height; j++) {
    const row = Math.min(ny - 1, Math.floor(((j + 0.5) * ny) / height)) * nx;
    for (let i = 0; i < width; i++) {
      const p = j * width + i;
      const cell = frame.cells === null ? row + columns[i] : frame.cells[p];
      if (cell < 0) continue;
      const look = looks[cell];
      if (look > NOT_SEARCHED) pixels[p] = colours[look];
    }
  }
  return new Uint8ClampedArray(buffer);
}

/** A cell's look: nothing, not searched, no value, or 3 + class, + 7 where less sure, + 14 more where dimmed. */
const NOT_SEARCHED = 1;
const FIRST_CLASS = 3;
const NO_VALUE_LOOK = 2;
const CLASSES = RAMP.light.length;
const DIMMED = 2 * CLASSES;
const DIM_SHARE = 0.25;

export function cellLooks(
  bed: Bed,
  surface: Surface,
  options: PaintOptions,
  basis: IntervalBasis,
): Uint8Array {
  const { depthM, substrate } = options;
  const { inside, densityPerM2 } = surface;
  const classAt = classesOf(surface, options, basis);
  const lit = substrate === null ? null : cellsOfSubstrate(bed, substrate);
  const looks = new Uint8Array(inside.length);
  for (let c = 0; c < inside.length; c++) {
    if (Number.isNaN(inside[c])) continue;
    if (inside[c] === 0 || Number.isNaN(densityPerM2[c])) {
      looks[c] = NOT_SEARCHED;
      continue;
    }
    const k = classAt(c);
    const depth = bed.cellDepthM[c];
    const off =
      (depthM !== null && !(depth >= depthM.from && depth < depthM.to)) ||
      (lit !== null && lit[c] === 0);
    looks[c] = k < 0 ? NO_VALUE_LOOK : FIRST_CLASS + k + (off ? DIMMED : 0);
  }
  return looks;
}

/** The class of a cell inside, + CLASSES where its density is less sure; −1 where it has no value. */
function classesOf(
  surface: Surface,
  options: PaintOptions,
  basis: IntervalBasis,
): (cell: number) => number {
  const { densityPerM2, cv } = surface;
  const breaks = paintBreaks(options, surface);
  if (options.surface === 'cv') return (c) => (cv[c] >= 0 ? classOf(cv[c], breaks) : -1);
  if (options.surface === 'chance') {
    // Pr(density > t) = Φ((log λ − log t)/cv) ≥ p where log λ − log t ≥ cv · Φ⁻¹(p): one logarithm a cell
    const quantiles = breaks.map(normalQuantile);
    const log = Math.log(options.thresholdPerM2);
    return (c) => {
      const above = Math.log(densityPerM2[c]) - log;
      const spread = Number.isNaN(cv[c]) ? 0 : cv[c];
      let k = 0;
      while (k < quantiles.length && above >= spread * quantiles[k]) k++;
      return k;
    };
  }
  const widestCv = cvOfRatio(basis);
  // no cv: nothing was found on this class, so that there is a limit and no interval
  return (c) => classOf(densityPerM2[c], breaks) + (cv[c] <= widestCv ? 0 : CLASSES);
}

/** Powers of ten are counted in so fine steps. */
const STEPS_A_POWER = 100;
/** From 1e-10 to 1e10 per m². */
const POWERS = 10;
/** Share of the cells at either end that do not stretch the range. */
const TAIL_SHARE = 0.01;

/** The densities between which nearly all cells lie, to 2 %; null where nothing lives. */
export function densityRange(densityPerM2: Float32Array): { from: number; to: number } | null {
  const counts = new Uint32Array(2 * POWERS * STEPS_A_POWER);
  let cells = 0;
  for (const density of densityPerM2) {
    if (!(density > 0)) continue;
    const step = Math.floor((Math.log10(density) + POWERS) * STEPS_A_POWER);
    counts[Math.min(counts.length - 1, Math.max(0, step))]++;
    cells++;
  }
  if (cells === 0) return null;
  const tail = Math.floor(cells * TAIL_SHARE);
  const densityOf = (step: number) => 10 ** (step / STEPS_A_POWER - POWERS);
  let first = 0;
  for (let below = counts[0]; below <= tail; below += counts[first]) first++;
  let last = counts.length - 1;
  for (let above = counts[last]; above <= tail; above += counts[last]) last--;
  return { from: densityOf(first), to: densityOf(last + 1) };
}

function lookColours({ dark, surface }: PaintOptions): Uint32Array {
  const theme = dark ? 'dark' : 'light';
  const plain = new Uint32Array(FIRST_CLASS + 4 * CLASSES);
  const water = rgbOf(WATER[theme]);
  plain[NO_VALUE_LOOK] = packed(rgbOf(NO_VALUE[theme]), 255);
  for (let k = 0; k < 2 * CLASSES; k++) {
    const hex =
      surface === 'density'
        ? classColour(k % CLASSES, dark, k >= CLASSES)
        : (surface === 'chance' ? CHANCE_RAMP : CV_RAMP)[theme][k];
    if (hex === undefined) continue; // fewer classes, and none less sure
    const colour = rgbOf(hex);
    plain[FIRST_CLASS + k] = packed(colour, 255);
    const dim = mix(colour, water, DIM_SHARE);
    plain[FIRST_CLASS + DIMMED + k] = packed(dim, 255);
  }
  return plain;
}

/** One pixel in the byte order of this machine: red, green, blue, alpha. */
function packed(rgb: readonly number[], alpha: number): number {
  return new Uint32Array(new Uint8Array([rgb[0], rgb[1], rgb[2], alpha]).buffer)[0];
}

/** 1 where any piece of the cell is of this label: `sand` is bare sand, and no mixture; classes in any order. */
function cellsOfSubstrate(bed: Bed, label: string): Uint8Array {
  const sorted = (classes: readonly string[]) => [...classes].sort().join('+');
  const wanted = bed.habitats.map((h) => sorted(h.substrate) === sorted(label.split('+')));
  const lit = new Uint8Array(bed.frame.nx * bed.frame.ny);
  const { count, cell, habitat } = bed.pieces;
  for (let i = 0; i < count; i++) if (wanted[habitat[i]]) lit[cell[i]] = 1;
  return lit;
}
