/** Classes of the substrate that a sheet keeps under their own names, as choices of the survey: a class that is not listed there is an error in its cell. */

import { DEFAULT_ANALYSIS } from '../../shared/analysis.ts';
import { terms } from '../../shared/glossary.ts';
import type { GivenFile, ImportedRow } from '../../shared/importing.ts';
import { LONGEST_LABEL } from '../../shared/tables.ts';
import { listed, quoted } from '../../shared/words.ts';

const FILE = 'analysis.json';

/**
 * analysis.json with the classes of these rows that it lacks behind its own; null where it lacks none, or is none that could be
 * added to (its own reader tells what is wrong with it).
 * @param kept the file as it was given; undefined where none was
 */
export function classesFile(
  habitat: readonly ImportedRow[],
  kept: Uint8Array | undefined,
): { file: GivenFile; remark: string } | null {
  const choices = kept === undefined ? {} : choicesIn(kept);
  if (choices === null) return null;
  const { substrates = DEFAULT_ANALYSIS.substrates } = choices;
  if (!Array.isArray(substrates)) return null;
  const known = new Set(substrates.map((name) => String(name).trim().toLowerCase()));
  const more = [...new Set(habitat.flatMap(({ cells }) => namesIn(cells.substrate ?? '')))].filter(
    (name) => !known.has(name.toLowerCase()) && name.length <= LONGEST_LABEL,
  );
  if (more.length === 0) return null;
  const text = `${JSON.stringify({ ...choices, substrates: [...substrates, ...more] }, null, 2)}\n`;
  const named = listed(
    more.map((name) => quoted(name)),
    'and',
  );
  return {
    file: { name: FILE, bytes: new TextEncoder().encode(text) },
    remark: `${FILE}: ${named} stand among the ${terms('substrate')} of this survey, as its sheets have them.`,
  };
}

function namesIn(substrate: string): string[] {
  return substrate
    .split('+')
    .map((name) => name.trim())
    .filter((name) => name !== '');
}

function choicesIn(bytes: Uint8Array): Record<string, unknown> | null {
  try {
    const content: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return typeof content === 'object' && content !== null && !Array.isArray(content)
      ? (content as Record<string, unknown>)
      : null;
  } catch {
    return null;
  }
}
