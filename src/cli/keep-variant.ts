/** The choices of a survey's analysis and what they gave, kept under a name in its variants.json. */

import { rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import {
  VARIANTS_FILE,
  type Variant,
  variantEntries,
  variantEntry,
  variantsText,
} from '../../shared/variants.ts';
import { type Folder, InputError, OutputError } from './core.ts';

/**
 * In place of the one of its name, else at the end; the others stay as they are. Written whole or not at all.
 * @param before the variants that could be read from it
 * @throws InputError when the file that is there cannot be read, OutputError when none can be written
 */
export async function keepVariant(
  path: string,
  { files }: Folder,
  kept: Variant,
  before: readonly Variant[],
): Promise<Variant[]> {
  const file = join(path, VARIANTS_FILE);
  const read = variantEntries(new TextDecoder().decode(files.get(VARIANTS_FILE)));
  if ('problem' in read)
    throw new InputError(`${file}: ${read.problem}; nothing was kept in it, mend or remove it`);
  const at = read.entries.findIndex((entry) => nameIn(entry) === kept.name);
  const entries = [...read.entries];
  entries.splice(at < 0 ? entries.length : at, at < 0 ? 0 : 1, variantEntry(kept));
  const begun = `${file}.${process.pid}`;
  try {
    await writeFile(begun, variantsText(entries), { flush: true });
    await rename(begun, file);
  } catch (error) {
    await rm(begun, { force: true }).catch(() => {});
    throw new OutputError(`${file}: cannot be written (${(error as Error).message})`);
  }
  return [...before.filter((v) => v.name !== kept.name), kept];
}

function nameIn(entry: unknown): string | null {
  const name = (entry as { name?: unknown } | null)?.name;
  return typeof name === 'string' ? name.trim() : null;
}
