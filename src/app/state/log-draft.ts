/** Where the Field log is in a survey, and what the next row will hold. */

import type { LogDraft, Work } from '../contract.ts';

const NO_DRAFT: LogDraft = {
  transect: null,
  tab: 'transect',
  breakM: '0',
  depthM: '',
  substrate: '',
  plantCover: '',
  foundM: '0',
  offsetM: '',
};

export function draftOf({ draft }: Pick<Work, 'draft'>): LogDraft {
  return draft ?? NO_DRAFT;
}

/** Of a transect that was chosen: nothing is carried over from another one but what is given. */
export function draftFor(
  transect: number | null,
  tab: LogDraft['tab'],
  begun: Partial<LogDraft> = {},
): LogDraft {
  return { ...NO_DRAFT, transect, tab, ...begun };
}
