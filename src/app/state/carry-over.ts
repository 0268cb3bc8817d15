/** Corrections made to a survey as it was, made again to the survey as it is now. */

import type { Edit, Work } from '../contract.ts';
import { currentValue, makeEdit } from './edits.ts';

export interface CarriedOver {
  work: Work;
  /** could not be made: the cell holds something else now, or is gone */
  left: Edit[];
}

/**
 * Each correction is made again where its place still holds what was corrected, with its own time and reason; one that
 * stands in the files already needs nothing. The order is kept: a later one may build on an earlier one.
 */
export function carryOver(edits: readonly Edit[], fresh: Work): CarriedOver {
  let work = fresh;
  const left: Edit[] = [];
  for (const edit of edits) {
    const now = valueThere(work, edit);
    if (now === edit.before) work = makeEdit(work, edit);
    else if (now !== edit.after) left.push(edit);
  }
  return { work, left };
}

/** Null when the place is not there any more. */
function valueThere(work: Work, edit: Edit): string | null {
  try {
    return currentValue(work, edit);
  } catch {
    return null;
  }
}
