/** Changes of variants.json: one variant added, changed or removed at its place in the list; the other entries stay as they are. */

import {
  LONGEST_NAME,
  MOST_VARIANTS,
  type PlacedVariant,
  VARIANTS_FILE,
  type Variant,
  type VariantOutcome,
  variantEntries,
  variantEntry,
  variantsText,
} from '../../../shared/variants.ts';
import { quoted } from '../../../shared/words.ts';
import type { Edit } from '../contract.ts';
import { withEntryAt } from './entry-at.ts';

/** As column of an edit: the whole entry as JSON. Blank after = removed; blank before = added. */
const WHOLE_ENTRY = '*';

export type VariantEdit = Omit<Edit, 'before' | 'at'>;

/** A new variant at the end of the list, or in place of the one of its name. */
export function keepVariant(
  list: readonly PlacedVariant[],
  text: string,
  kept: Variant,
): VariantEdit {
  const same = list.find((v) => v.name === kept.name);
  const place = same?.place ?? entriesOf(text).length + 1;
  return editAt(place, kept, `${quoted(kept.name)} kept`);
}

export function renameVariant({ place, ...variant }: PlacedVariant, name: string): VariantEdit {
  return editAt(place, { ...variant, name }, `${quoted(variant.name)} renamed to ${quoted(name)}`);
}

export function updateVariant(
  { place, ...variant }: PlacedVariant,
  outcome: VariantOutcome | null,
): VariantEdit {
  return editAt(place, { ...variant, outcome }, `${quoted(variant.name)} estimated again`);
}

export function removeVariant({ place, name }: PlacedVariant): VariantEdit {
  return {
    file: VARIANTS_FILE,
    row: place,
    column: WHOLE_ENTRY,
    after: '',
    reason: `${quoted(name)} removed`,
  };
}

/** Why a variant cannot have this name, in a sentence; null when it can. Blank is no name yet, and nothing to complain of. */
export function nameProblem(
  typed: string,
  list: readonly PlacedVariant[],
  own: string | null,
): string | null {
  const name = typed.trim();
  if (name.length > LONGEST_NAME) return `A name has at most ${LONGEST_NAME} characters.`;
  return name !== own && list.some((v) => v.name === name)
    ? `${quoted(name)} is kept already.`
    : null;
}

/** Whether there is no room for another one. */
export function isFull(list: readonly PlacedVariant[]): boolean {
  return list.length >= MOST_VARIANTS;
}

/** The entry's JSON; blank past the end. Throws with a sentence when the file cannot be read. */
export function variantAt(text: string, place: number): string {
  const entry = entriesOf(text)[place - 1];
  return entry === undefined ? '' : JSON.stringify(entry);
}

/** The file with the entry put there, in between where it was added or removed before. */
export function withVariantAt(
  text: string,
  edit: Pick<Edit, 'file' | 'row' | 'before' | 'after'>,
  value: string,
): string {
  return variantsText(withEntryAt(entriesOf(text), edit, value, 'variants'));
}

function entriesOf(text: string): readonly unknown[] {
  const read = variantEntries(text);
  if ('problem' in read)
    throw new Error(`${VARIANTS_FILE} cannot be read (${read.problem}): set it aside first`);
  return read.entries;
}

function editAt(place: number, variant: Variant, reason: string): VariantEdit {
  return {
    file: VARIANTS_FILE,
    row: place,
    column: WHOLE_ENTRY,
    after: JSON.stringify(variantEntry(variant)),
    reason,
  };
}
