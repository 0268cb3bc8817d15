/**
 * Who detected it, transect by transect, given what was detected: sheets on which the roles were exchanged show here, and
 * only here, for over all transects together such errors look like observers who miss a lot.
 */

import type { SurveyRows } from '../data.ts';
import { LOG_PI_VARIABLES } from '../detection/log-pi.ts';
import { compileSettings, offsetOf, settingAt } from '../detection/setting.ts';
import type { Fit } from '../fit/fitted-model.ts';
import { constant } from '../numbers/jet.ts';
import { chiSquareTail } from './chi-square.ts';
import { nothingLeft } from './expected.ts';

export interface RoleTest {
  /** two-pass transects with clusters that either observer might have detected */
  transects: number;
  /** Σ (secondaries − expected)²/variance */
  statistic: number;
  p: number;
  /** the transect that adds most */
  oddest: { transect: number; detected: number; secondary: number; expected: number };
}

/** Clusters of one transect: detected, by the secondary observer, Σ r, Σ r(1−r), Σ r(1−r)(1−6r(1−r)). */
interface Tally {
  detected: number;
  secondary: number;
  expected: number;
  variance: number;
  excess: number;
}

/**
 * A detected cluster is the secondary observer's with probability r = π₂/(π₁+π₂) at its own distance and size. A transect's
 * (S − Σr)²/Σr(1−r) has mean 1 and variance 2 + Σ v(1−6v)/(Σv)², v = r(1−r); their sum is compared with the scaled χ²
 * of that mean and variance (Satterthwaite 1946), which holds for few clusters a transect where the plain χ² does not.
 * Null with fewer than two transects to compare.
 */
export function roleTest(rows: SurveyRows, fit: Fit): RoleTest | null {
  const tallies = tallyRoles(rows, fit);
  if (tallies.size < 2) return null;
  let statistic = 0;
  let variance = 0;
  let most = -1;
  let oddest: RoleTest['oddest'] | null = null;
  for (const [transect, t] of tallies) {
    const own = (t.secondary - t.expected) ** 2 / t.variance;
    statistic += own;
    variance += 2 + t.excess / t.variance ** 2;
    if (own > most) {
      most = own;
      const { detected, secondary, expected } = t;
      oddest = { transect, detected, secondary, expected };
    }
  }
  const mean = tallies.size;
  if (!oddest || !(variance > 0)) return null;
  const scale = variance / (2 * mean);
  return {
    transects: mean,
    statistic,
    p: chiSquareTail(statistic / scale, mean / scale),
    oddest,
  };
}

function tallyRoles(rows: SurveyRows, fit: Fit): Map<number, Tally> {
  const { settings, ofSegment } = compileSettings(rows, fit.parts, fit.likelihood.layout);
  const at = settings.map((s) => settingAt(s, fit.parts, fit.estimates));
  const logPi = constant(0, LOG_PI_VARIABLES);
  const tallies = new Map<number, Tally>();
  for (const c of rows.clusters) {
    const s = rows.segments[c.segment];
    const setting = settings[ofSegment[c.segment]];
    if (s.secondary === null || nothingLeft(setting, fit)) continue;
    const log = (role: 'primary' | 'secondary'): number => {
      at[ofSegment[c.segment]].logPi(role, offsetOf(c, setting, fit.parts), c.count, logPi);
      return logPi.value;
    };
    const r = 1 / (1 + Math.exp(log('primary') - log('secondary')));
    const v = r * (1 - r);
    let t = tallies.get(s.transect);
    if (!t) {
      t = { detected: 0, secondary: 0, expected: 0, variance: 0, excess: 0 };
      tallies.set(s.transect, t);
    }
    t.detected++;
    t.secondary += c.role === 'secondary' ? 1 : 0;
    t.expected += r;
    t.variance += v;
    t.excess += v * (1 - 6 * v);
  }
  for (const [transect, t] of tallies) if (!(t.variance > 0)) tallies.delete(transect);
  return tallies;
}
