/** What the models met, as findings and as the result's warnings. */

import type { ClassLimit } from '../../models/limits.ts';
import type { Estimate } from '../../shared/estimate.ts';
import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import type { ModelNotice, NotEstimableReason } from '../../shared/model-notices.ts';
import {
  choiceOf,
  notEstimableSentence,
  noticeSentence,
} from '../../shared/sentences/model-notices.ts';
import type { LakeWide } from './lake-wide.ts';

export function limitNotices(limits: ClassLimit[]): ModelNotice[] {
  return limits.map(({ of, upper }) => ({
    code: 'nothing-found-in-class',
    of,
    upperPerM2: upper,
  }));
}

export function lakeNotices(lake: LakeWide): ModelNotice[] {
  const notices: ModelNotice[] = [];
  if (lake.plantsUnmappedM2 > 0)
    notices.push({ code: 'plant-cover-not-mapped', areaM2: lake.plantsUnmappedM2 });
  if (lake.abundance === null) notices.push({ code: 'nothing-inside' });
  return notices;
}

export function asNotice(n: ModelNotice): Finding {
  return noticeAt({ table: 'analysis.json', column: choiceOf(n) }, n.code, noticeSentence(n));
}

/** The finding of a survey without an estimate: what was detected does not allow one. */
export function asError(reason: NotEstimableReason): Finding {
  return errorAt({ table: 'detections.csv' }, reason.code, notEstimableSentence(reason));
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
