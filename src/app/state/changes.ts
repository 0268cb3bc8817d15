/** Changes of the survey: made, joined, taken back and made again; the estimate that follows is asked for with them. */

import { VARIANTS_FILE } from '../../../shared/variants.ts';
import type { Edit, Work } from '../contract.ts';
import { isAreaFile } from './area-edits.ts';
import { editWords } from './edit-words.ts';
import { makeEdit, takeBack, takeBackAtOnce } from './edits.ts';
import { asked, type PageState } from './page-state.ts';

export const EDITED_ELSEWHERE =
  'This survey is being edited in another tab or window. Edit it there, or take over here first.';

export function entered(
  state: PageState,
  edits: readonly Omit<Edit, 'before'>[],
  join: boolean,
): PageState {
  const [first] = edits;
  if (first === undefined) return state;
  const last = state.work?.edits.at(-1);
  const joined =
    join &&
    edits.length === 1 &&
    last?.together === undefined &&
    (['file', 'row', 'column', 'reason'] as const).every((key) => last?.[key] === first[key]);
  const make = (work: Work): Work => {
    const from = joined ? takeBack(work)!.work : work;
    return edits.reduce((made, edit) => makeEdit(made, edit), from);
  };
  const words = first.together === undefined ? editWords(first) : first.reason;
  return edited(state, make, first, words, []);
}

export function undone(state: PageState): PageState {
  const back = state.work && takeBackAtOnce(state.work);
  if (!back) return state;
  const { work, edits } = back;
  const first = edits.at(-1)!;
  return edited(state, () => work, first, `undone: ${wordsOfAll(edits)}`, [
    ...state.undone,
    ...edits,
  ]);
}

export function redone(state: PageState): PageState {
  const edit = state.undone.at(-1);
  if (edit === undefined) return state;
  const { undone } = state;
  let from = undone.length - 1;
  if (edit.together !== undefined) while (undone[from - 1]?.together === edit.together) from--;
  const edits = undone.slice(from).reverse();
  const make = (work: Work) => edits.reduce((made, one) => makeEdit(made, one), work);
  return edited(state, make, edit, wordsOfAll(edits), undone.slice(0, from));
}

/** Of one change; of several at once, what they were made for. */
function wordsOfAll(edits: readonly Edit[]): string {
  const [first] = edits;
  if (first === undefined) return '';
  return edits.length === 1 ? editWords(first) : `${edits.length} changes: ${first.reason}`;
}

/**
 * A change that cannot be made is told and changes nothing. No number depends on a variant, and areas have their numbers at
 * their own station without an estimate: what is shown stays.
 */
export function edited(
  state: PageState,
  change: (work: Work) => Work,
  { file, row }: Pick<Edit, 'file' | 'row'>,
  words: string,
  undoneLeft: Edit[],
): PageState {
  if (state.work === null) return state;
  if (state.editor === 'elsewhere') return { ...state, trouble: EDITED_ELSEWHERE };
  try {
    const work = change(state.work);
    const changed = { ...state, work, undone: undoneLeft, trouble: null };
    const stays =
      state.log ||
      (file === VARIANTS_FILE && row !== null) ||
      (isAreaFile(file) && state.station === 'areas' && state.result !== null);
    return stays ? changed : { ...changed, ...asked(work), change: words, stopped: false };
  } catch (error) {
    return { ...state, trouble: (error as Error).message };
  }
}
