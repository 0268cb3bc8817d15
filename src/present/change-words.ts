/** A ratio in words and cells. */

import type { ChangeNumbers } from '../../shared/change.ts';
import { formatPercent, formatToStep } from '../../shared/units.ts';
import { intervalName, NONE, probabilityText } from './quantity.ts';

/** Beyond that a ratio is told as such a bound: an interval from few detections can reach very far. */
const MOST_TIMES = 1000;

/** `half as many: 0.50 times (95 % confidence interval 0.31 to 0.81)`, without rounding away what the interval tells. */
export function changeInWords(change: ChangeNumbers, interval: number): string {
  const [ratio, limits] = ratioCells(change);
  return `${ratio} times as many (${intervalName(interval)} ${limits})`;
}

/** The cells of a ratio: itself, its interval, the probability of fewer; dashes where there is none. */
export function ratioCells(change: ChangeNumbers | null): [string, string, string] {
  if (change === null) return [NONE, NONE, NONE];
  const step = stepOf(change);
  const show = (x: number): string =>
    x > MOST_TIMES
      ? `over ${formatToStep(MOST_TIMES, 1)}`
      : x < 1 / MOST_TIMES
        ? `under ${1 / MOST_TIMES}`
        : formatToStep(x, x < step ? 10 ** Math.floor(Math.log10(x)) : step);
  return [
    show(change.ratio),
    `${show(change.lower)} to ${show(change.upper)}`,
    probabilityText(change.decline),
  ];
}

/** Two digits of the ratio's own error. */
function stepOf({ ratio, se_log }: ChangeNumbers): number {
  const se = Math.min(ratio, ratio * se_log);
  return se > 0 ? 10 ** (Math.floor(Math.log10(se)) - 1) : 0.01;
}

/** `98 %` of a share that may be 1 up to rounding. */
export const shareText = (share: number): string => formatPercent(Math.min(1, share));
