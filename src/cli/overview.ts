/** The table at the end of a run over several folders. */

import type { Estimate } from '../../shared/estimate.ts';
import { formatLandArea, formatToStep, roundingStep } from '../../shared/units.ts';
import { visible } from '../../shared/words.ts';
import { EXIT } from './core.ts';
import { columns } from './text.ts';

export interface Line {
  name: string;
  code: number;
  estimate: Estimate | null;
}

/** One line a folder: mussels, interval, area spoken for, notices; or why there is no number. */
export function overview(lines: Line[]): string {
  const rows = lines.map(({ name, code, estimate }) => [visible(name), ...cells(code, estimate)]);
  return `${columns(
    [['Survey', 'Mussels', 'Interval', 'Area', 'Notices'], ...rows],
    ['left', 'right', 'right', 'right', 'right'],
  )}\n`;
}

function cells(code: number, estimate: Estimate | null): string[] {
  if (estimate === null)
    return [code === EXIT.data ? 'errors in the data' : 'fault of the program', '', '', ''];
  const notices = String(estimate.warnings.length);
  const { abundance } = estimate;
  if (abundance === null) return ['no lake-wide number', '', '', notices];
  const area = formatLandArea(abundance.area_m2);
  const { mussels } = abundance;
  if (estimate.data.detections === 0 || mussels === null) return ['none found', '', area, notices];
  const step = roundingStep(mussels);
  const interval =
    mussels.lower === null || mussels.upper === null
      ? '–'
      : `${formatToStep(mussels.lower, step)} to ${formatToStep(mussels.upper, step)}`;
  return [formatToStep(mussels.estimate, step), interval, area, notices];
}
