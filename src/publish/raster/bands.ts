/** What the raster of a result holds, band by band. */

import type { SurveyResult } from '../../../shared/result.ts';
import type { GridFrame } from '../../../shared/survey.ts';
import type { Band } from './fields.ts';

/** Null without a lake. */
export function gridBands({
  bed,
  surface,
  analysis,
}: Pick<SurveyResult, 'bed' | 'surface' | 'analysis'>): { frame: GridFrame; bands: Band[] } | null {
  if (bed === null || surface === null) return null;
  const bands: Band[] = [
    { name: 'mussels per m2', values: surface.densityPerM2 },
    { name: 'coefficient of variation', values: surface.cv },
    { name: 'depth in m', values: bed.cellDepthM },
    { name: '1 where inside the surveyed domain', values: surface.inside },
  ];
  if (surface.aboveThreshold !== null)
    bands.push({
      name: `probability of more than ${analysis.map.threshold_per_m2} mussels per m2`,
      values: surface.aboveThreshold,
    });
  return { frame: bed.frame, bands };
}
