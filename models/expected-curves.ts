/**
 * What a fit expects of the detections, exactly as it was fitted: how many at which perpendicular distance, and how
 * large their clusters are. Each segment counts with its own observers, covariates and width, under either kind of
 * independence, with one pass or two; belts have no perpendicular distance and are in the cluster sizes alone.
 * Clusters present are spread evenly over a strip, so that N of them in a strip of half width w give N/w · p*(y)
 * detections a metre at y (Buckland et al. 2001), p* being the probability that either observer detects (METHOD.md:
 * Detection).
 */

import type {
  ExpectedByDistance,
  ExpectedBySize,
  ExpectedDetections,
  SizeClass,
} from '../shared/result.ts';
import type { SurveyRows } from './data.ts';
import { countedClass, countedLimits } from './detection/distance-class.ts';
import { SLOT } from './detection/log-pi.ts';
import {
  compileSettings,
  evaluateForm,
  isSized,
  type Setting,
  type Settings,
} from './detection/setting.ts';
import { gAt, SHAPES } from './detection/shapes.ts';
import { eachSize } from './detection/size.ts';
import { fittedSegments } from './diagnose/fitted.ts';
import type { Fit } from './fit/fitted-model.ts';
import { constant } from './numbers/jet.ts';

/** Fine enough to show observers who round to a tenth of the strip; of distances taken by classes these are shown. */
const DISTANCE_CLASSES = 10;
const CURVE_STEPS = 100;
/** Sizes up to this one by one, then in classes that begin here; the last class is open. */
const SINGLY = 8;
const WIDER_FROM = [9, 15, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000];

/** Both pictures of a fit; a part that the survey does not have is null. */
export function expectedDetections(rows: SurveyRows, fit: Fit): ExpectedDetections {
  const compiled = compileSettings(rows, fit.parts, fit.likelihood.layout);
  return {
    byDistance: expectedByDistance(rows, fit, compiled),
    bySize: fit.parts.sizeFamily === 'single' ? null : expectedBySize(rows, fit, compiled),
  };
}

/** One setting of the distance transects with the clusters that are expected in its strips, detected or not. */
interface Strip {
  setting: Setting;
  present: number;
  /** averages over cluster sizes from which p* follows */
  averages: number[];
}

function expectedByDistance(
  rows: SurveyRows,
  fit: Fit,
  compiled: Settings,
): ExpectedByDistance | null {
  const shape = fit.parts.shape;
  if (shape === null) return null;
  const strips = stripsOf(rows, fit, compiled);
  const widestM = fit.likelihood.greatestHalfWidthM;
  const { distanceClasses } = fit.parts;
  const limits = countedLimits(widestM, distanceClasses, DISTANCE_CLASSES);
  const observed = new Array<number>(limits.length - 1).fill(0);
  for (const c of rows.clusters) {
    if (rows.segments[c.segment]?.design !== 'distance' || c.offsetM === null) continue;
    observed[countedClass(c.offsetM, widestM, distanceClasses, DISTANCE_CLASSES)] += 1;
  }
  const { logSigma, logB } = shapeAt(fit);
  const independence = fit.parts.independence;
  const perMetre = (y: number, beyond: boolean): number =>
    strips.reduce((sum, { setting, present, averages }) => {
      const w = setting.halfWidthM;
      if (y > w || (beyond && y === w)) return sum;
      const g = gAt(shape, y, logSigma, logB);
      return sum + (present / w) * eitherAt(setting, averages, g, g * g);
    }, 0);
  const present = strips.reduce((sum, s) => sum + s.present, 0);
  const detection = (y: number): number => {
    const g = gAt(shape, y, logSigma, logB);
    if (independence === 'point') return g;
    const detected = strips.reduce(
      (sum, s) => sum + s.present * eitherAt(s.setting, s.averages, g, g * g),
      0,
    );
    return detected / present;
  };
  const halfWidthsM = [...new Set(strips.map((s) => s.setting.halfWidthM))];
  const places = [
    ...Array.from({ length: CURVE_STEPS + 1 }, (_, i) => ({
      y: (widestM * i) / CURVE_STEPS,
      beyond: false,
    })).filter(({ y }) => !halfWidthsM.includes(y)),
    ...halfWidthsM.map((y) => ({ y, beyond: false })),
    ...halfWidthsM.filter((y) => y < widestM).map((y) => ({ y, beyond: true })),
  ].sort((a, b) => a.y - b.y || Number(a.beyond) - Number(b.beyond));
  return {
    independence,
    shape,
    classes: observed.map((n, k) => ({
      fromM: limits[k],
      toM: limits[k + 1],
      observed: n,
      expected: strips.reduce((sum, s) => sum + between(s, fit, limits[k], limits[k + 1]), 0),
    })),
    takenByClass: distanceClasses !== null,
    curve: places.map(({ y, beyond }) => ({
      distanceM: y,
      detectionsPerM: perMetre(y, beyond),
      detection: detection(y),
    })),
    perMetreAtOne:
      halfWidthsM.length === 1
        ? independence === 'point'
          ? perMetre(0, false)
          : present / widestM
        : null,
  };
}

function stripsOf(rows: SurveyRows, fit: Fit, { settings, ofSegment }: Settings): Strip[] {
  const present = new Float64Array(settings.length);
  for (const [i, f] of fittedSegments(rows, fit).entries())
    present[ofSegment[i]] += f.expected / Math.exp(f.logDetection);
  return settings.flatMap((setting, k) =>
    setting.design === 'distance'
      ? [{ setting, present: present[k], averages: averagesOf(setting, fit) }]
      : [],
  );
}

/** log σ and log b of the shape; 0 where it has none. */
function shapeAt({ parts, estimates, likelihood }: Fit): { logSigma: number; logB: number } {
  const { logSigma, logB } = likelihood.layout;
  return {
    logSigma: logSigma < 0 ? 0 : estimates[logSigma],
    logB: logB < 0 ? Math.log(parts.fixedB ?? 1) : estimates[logB],
  };
}

/** Expected detections of a strip between two perpendicular distances, from the shape's means over [0, y]. */
function between(
  { setting, present, averages }: Strip,
  fit: Fit,
  from: number,
  to: number,
): number {
  const w = setting.halfWidthM;
  const a = Math.min(from, w);
  const b = Math.min(to, w);
  if (b <= a) return 0;
  const [g, g2] = meansBetween(fit, a, b);
  return ((present * (b - a)) / w) * eitherAt(setting, averages, g, g2);
}

/** Means of g and g² between two perpendicular distances; 1 on belts, which ask for none. */
function meansBetween(fit: Fit, from: number, to: number): [number, number] {
  const { parts } = fit;
  if (parts.shape === null) return [1, 1];
  const shape = SHAPES[parts.shape];
  const { logSigma, logB } = shapeAt(fit);
  const [s, b] = [constant(logSigma, 0), constant(logB, 0)];
  const area = (which: 'mean' | 'meanSquare', y: number): number =>
    y === 0 ? 0 : y * shape[which](y, s, b).value;
  const mean = (which: 'mean' | 'meanSquare'): number =>
    (area(which, to) - area(which, from)) / (to - from);
  return [mean('mean'), parts.independence === 'full' ? mean('meanSquare') : 1];
}

/** Probability that either observer detects, where g and g² have these means. */
function eitherAt(setting: Setting, averages: number[], g: number, g2: number): number {
  if (setting.design === 'distance' && g <= 0) return 0;
  const strip = { mean: constant(g, 0), meanSquare: () => constant(g2, 0) };
  const log = setting.model.logDetection(
    strip,
    averages.map((value) => constant(value, 0)),
  );
  return Math.exp(log.value);
}

/** What p* is made of, at one cluster size or averaged over all of them. */
function averagesOf(setting: Setting, fit: Fit): number[] {
  if (!isSized(setting)) return momentsAt(setting, fit, 1);
  const sums = setting.model.moments.map(() => 0);
  eachSizeOf(setting, fit, (count, probability) => {
    for (const [i, value] of momentsAt(setting, fit, count).entries())
      sums[i] += probability * value;
  });
  return sums;
}

function momentsAt(s: Setting, fit: Fit, count: number): number[] {
  const shift = isSized(s) ? evaluateForm(s.forms[SLOT.count], fit.estimates) * Math.log(count) : 0;
  const logit = (form: Setting['first']): number | 'certain' =>
    form === 'certain' ? form : evaluateForm(form, fit.estimates) + shift;
  const first = logit(s.first);
  const second = s.second === null ? null : logit(s.second);
  const out = constant(0, 2);
  return s.model.moments.map((moment) => {
    moment(first, second, out);
    return out.value;
  });
}

function eachSizeOf(
  s: Setting,
  fit: Fit,
  visit: (count: number, probability: number) => void,
): void {
  const logM = evaluateForm(s.forms[SLOT.logM], fit.estimates);
  sizesAt(fit, logM, visit);
}

function sizesAt(fit: Fit, logM: number, visit: (count: number, share: number) => void): void {
  const { logK } = fit.likelihood.layout;
  eachSize(fit.parts.sizeFamily, logM, logK < 0 ? 0 : fit.estimates[logK], visit);
}

/**
 * Sizes of the clusters that were detected: each with the sizes of its own segment, weighted by the probability of
 * being detected there, f(c) p̄(c) / Σ f p̄; with size not in the detection that is f(c) alone. The classes sum to the
 * number of detections.
 */
function expectedBySize(
  rows: SurveyRows,
  fit: Fit,
  { settings, ofSegment }: Settings,
): ExpectedBySize {
  const largest = rows.clusters.reduce((most, c) => Math.max(most, c.count), 1);
  const classes = sizeClasses(largest);
  const at = (count: number): number => {
    let k = Math.min(count, classes.length) - 1;
    while (classes[k + 1] !== undefined && count >= classes[k + 1].from) k++;
    return k;
  };
  const groups = new Map<string, { setting: Setting; logM: number; detections: number }>();
  const observed = new Array<number>(classes.length).fill(0);
  for (const c of rows.clusters) {
    observed[at(c.count)] += 1;
    const setting = settings[ofSegment[c.segment]];
    const logM = fit.parts.size.reduce(
      (sum, t, i) =>
        sum + fit.estimates[fit.likelihood.layout.size + i] * t.value(rows.segments[c.segment]),
      0,
    );
    const key = `${isSized(setting) ? ofSegment[c.segment] : ''}|${logM}`;
    const group = groups.get(key);
    if (group) group.detections += 1;
    else groups.set(key, { setting, logM, detections: 1 });
  }
  const expected = new Array<number>(classes.length).fill(0);
  for (const { setting, logM, detections } of groups.values()) {
    const [g, g2] =
      setting.design === 'distance' ? meansBetween(fit, 0, setting.halfWidthM) : [1, 1];
    const shares = new Array<number>(classes.length).fill(0);
    let total = 0;
    sizesAt(fit, logM, (count, probability) => {
      const share = isSized(setting)
        ? probability * eitherAt(setting, momentsAt(setting, fit, count), g, g2)
        : probability;
      shares[at(count)] += share;
      total += share;
    });
    for (const [k, share] of shares.entries()) expected[k] += (detections * share) / total;
  }
  return {
    inDetection: fit.likelihood.layout.logCount >= 0,
    classes: classes.map((c, k) => ({ ...c, observed: observed[k], expected: expected[k] })),
  };
}

/** 1, 2, … 8, then wider; the last class is open and holds the largest cluster. */
function sizeClasses(largest: number): SizeClass[] {
  const starts = Array.from({ length: Math.max(2, Math.min(SINGLY, largest)) }, (_, i) => i + 1);
  for (const s of WIDER_FROM) if (s <= largest) starts.push(s);
  return starts.map((from, i) => {
    const next = starts[i + 1];
    return { from, to: next === undefined ? null : next - 1 };
  });
}
