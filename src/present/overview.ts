/** One survey in one line, for a table of several. */

import { label, labels, terms } from '../../shared/glossary.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { formatCount, landArea } from '../../shared/units.ts';
import { habitatBand } from './depths.ts';
import { readNotices } from './notices.ts';
import { quantity, quantityCells } from './quantity.ts';

/** Cells under OVERVIEW_HEADS. */
export type OverviewRow = [
  number: string,
  interval: string,
  areaHa: string,
  depths: string,
  notices: string,
];

export const OVERVIEW_HEADS: OverviewRow = [
  labels('mussel'),
  'Interval',
  'Area (ha)',
  label('depth'),
  labels('notice'),
];

/** The lake-wide number with the area and the depths that it is about; or that there is none. */
export function overviewRow({
  estimate,
  domain,
  findings,
}: Pick<SurveyResult, 'estimate' | 'domain' | 'findings'>): OverviewRow {
  const { abundance, data } = estimate;
  const notices = formatCount(readNotices(findings).count);
  if (abundance === null) return ['no lake-wide number', '', '', '', notices];
  const about = [landArea(abundance.area_m2), habitatBand(domain, 'metric'), notices] as const;
  const { clusters, mussels } = abundance;
  if (data.detections === 0) {
    const { interval } = quantity(clusters);
    const limit = interval === null ? '' : `${interval} ${terms('cluster')}`;
    return ['none detected', limit, ...about];
  }
  return [...quantityCells(mussels), ...about];
}
