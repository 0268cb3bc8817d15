/** Terms that are about no class and no level; those of a class are made where the class is known. */

import type { ModelTerm, TermKind } from '../shared/estimate.ts';

export function bareTerm(name: string, kind: TermKind): ModelTerm {
  return { name, kind, class: null, level: null };
}
