/** Names of the classes in which found and expected clusters are compared, as people say them. */

import type { ObservedExpected } from '../../../shared/estimate.ts';
import { formatDepth } from '../../../shared/units.ts';
import type { Units } from '../contract.ts';
import { unitSystem } from '../shell/ui.tsx';

/** `Ines, primary, belt` → `Ines first, belt`; `Ines, secondary` → `Ines second`. */
export function passLabels(rows: readonly ObservedExpected[]): ObservedExpected[] {
  return rows.map((row) => {
    const match = /^(.*), (primary|secondary)(, (?:belt|distance))?$/s.exec(row.label);
    if (match === null) return row;
    const pass = match[2] === 'primary' ? 'first' : 'second';
    return { ...row, label: `${match[1]} ${pass}${match[3] ?? ''}` };
  });
}

/** `2–3 m` → `7–10 ft` for readers of feet. */
export function depthLabels(rows: readonly ObservedExpected[], units: Units): ObservedExpected[] {
  return rows.map((row) => {
    const match = /^(\d+)–(\d+) m$/.exec(row.label);
    if (match === null || units === 'metric') return row;
    const [from, to] = [match[1], match[2]].map((m) => formatDepth(Number(m), unitSystem(units)));
    return { ...row, label: `${from!.replace(/ .*/, '')}–${to}` };
  });
}
