/** What the models remarked, as findings and as the result's warnings. */

import type { ModelNotice } from '../../models/data.ts';
import type { ClassLimit } from '../../models/limits.ts';
import type { Estimate } from '../../shared/estimate.ts';
import type { Finding } from '../../shared/findings.ts';
import type { LakeWide } from './lake-wide.ts';

export function limitNotices(limits: ClassLimit[]): ModelNotice[] {
  return limits.map((l) => ({
    code: 'nothing-found-in-class',
    key: `density.${l.kind}`,
    message: Number.isFinite(l.upper)
      ? `nothing was found on ${l.name}: its density is given as 0, at most ${l.upper.toPrecision(2)} clusters per m²; totals leave it out`
      : `nothing was found on ${l.name}: its density is given as 0, without an upper limit, because the finds cannot hold the detection away from 0; totals leave it out`,
  }));
}

export function lakeNotices(lake: LakeWide): ModelNotice[] {
  const notices: ModelNotice[] = [];
  if (lake.plantsUnmappedM2 > 0) {
    notices.push({
      code: 'plant-cover-not-mapped',
      key: 'density.plant_cover',
      message: `${Math.round(lake.plantsUnmappedM2)} m² of the surveyed bed are mapped without plant cover: their density is averaged over the plants that divers met on the same substrate`,
    });
  }
  if (lake.abundance === null) {
    notices.push({
      code: 'nothing-inside',
      key: 'map',
      message:
        'no mapped bed lies inside the surveyed substrates and depths: no abundance is given',
    });
  }
  return notices;
}

export const ONE_TRANSECT: ModelNotice = {
  code: 'one-transect',
  key: null,
  message:
    'with one transect the spread between transects is unknown: the design-based density has no interval',
};

export function asNotice(n: ModelNotice): Finding {
  return {
    severity: 'notice',
    code: n.code,
    table: 'analysis.json',
    row: null,
    column: n.key,
    message: n.message,
  };
}

/** The result's form of a notice; the column stands before the message. */
export function asWarning(f: Finding): Estimate['warnings'][number] {
  return {
    code: f.code,
    table: f.table,
    row: f.row,
    message: f.column === null ? f.message : `${f.column}: ${f.message}`,
  };
}
