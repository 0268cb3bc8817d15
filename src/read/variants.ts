/** variants.json → variants of the analysis. What cannot be read is a notice: no number depends on it. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import { parseVariants, VARIANTS_FILE, type Variant } from '../../shared/variants.ts';
import { visible } from '../../shared/words.ts';

/** `bytes` undefined: no such file. Never throws. */
export function readVariants(bytes: Uint8Array | undefined): {
  variants: Variant[];
  findings: Finding[];
} {
  if (bytes === undefined) return { variants: [], findings: [] };
  const { variants, problems } = parseVariants(new TextDecoder().decode(bytes));
  const findings = problems.map((problem) =>
    noticeAt(
      { table: VARIANTS_FILE },
      'variant-unread',
      `${visible(problem)}; left out, no number depends on it`,
    ),
  );
  return { variants, findings };
}
