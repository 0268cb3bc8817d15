/** All lakes of a programme together. */

import { intervalQuantile, logNormalQuantity } from '../../models/index.ts';
import type { BatchFile, LakeNumbers, Programme } from '../../shared/batch.ts';

/** Of the programme's interval: lakes may have been given others. */
export const PROGRAMME_LEVEL = 0.95;

/** Lakes are independent: their variances add up. */
export function programmeOf(
  lakes: BatchFile['lakes'],
  listed: number,
  missing: string[],
): Programme {
  const estimated = lakes.flatMap(({ numbers }) => numbers ?? []);
  const withNumber = estimated.filter((n) => n.mussels !== null && n.detections > 0);
  const total = withNumber.reduce((sum, n) => sum + (n.mussels?.estimate ?? 0), 0);
  const variance = withNumber.reduce((sum, n) => sum + (n.mussels?.se ?? Number.NaN) ** 2, 0);
  return {
    lakes: listed,
    estimated: estimated.length,
    none_detected: estimated.filter((n) => n.detections === 0).length,
    with_errors: lakes.filter(({ numbers }) => numbers === null).length,
    missing,
    surveyed_m2: estimated.reduce((sum, n: LakeNumbers) => sum + (n.surveyed_m2 ?? 0), 0),
    mussels:
      withNumber.length === 0
        ? null
        : logNormalQuantity(
            total,
            Math.sqrt(variance),
            intervalQuantile(PROGRAMME_LEVEL, false, 0),
          ),
  };
}
