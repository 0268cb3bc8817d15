/** Rules about who dived in which role: whether detection can be told from the sheets. */

import { type Finding, noticeAt } from '../../shared/findings.ts';
import type { Design } from '../../shared/survey.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { listed, quoted } from '../../shared/words.ts';
import type { Context, TransectRow } from './context.ts';

const DESIGNS: readonly Design[] = ['belt', 'distance'];

/** The transects of a design, or null where a fault hides who dived on one of them. */
function rowsOf({ drafts }: Context, design: Design): TransectRow[] | null {
  const rows = drafts.transects.rows.filter(({ cells }) => cells.design === design);
  const hidden = drafts.transects.rows.some(
    ({ cells, bad }) =>
      (cells.design === null || cells.design === design) &&
      ['design', 'primary', 'secondary'].some((column) => bad.has(column)),
  );
  return hidden || rows.length === 0 || !drafts.transects.complete ? null : rows;
}

export function rolesNeverSwapped(context: Context): Finding[] {
  return DESIGNS.flatMap((design) => {
    const twoPass = (rowsOf(context, design) ?? []).filter(({ cells }) => cells.secondary !== null);
    const first = new Set(twoPass.map(({ cells }) => cells.primary));
    if (twoPass.length === 0 || twoPass.some(({ cells }) => first.has(cells.secondary))) return [];
    const message = `roles never swapped: on the ${design} transects no observer was primary on one two-pass transect and secondary on another, so the observers cannot be told apart and one detection probability is fitted for all of that design; a survey in which the observers swap roles between transects makes it possible`;
    return [noticeAt({ table: TRANSECTS.file }, 'roles-never-swapped', message)];
  });
}

export function singlePassOnly(context: Context): Finding[] {
  return DESIGNS.flatMap((design) => {
    const rows = rowsOf(context, design);
    if (rows === null || rows.some(({ cells }) => cells.secondary !== null)) return [];
    const message = `no ${design} transect has a secondary observer, so detection probability cannot be estimated: it is fixed at p = 1${design === 'distance' ? ' on the line' : ''}, and densities are those of detectable clusters; a secondary observer who searches behind the primary makes it possible${leftOut(context)}`;
    return [noticeAt({ table: TRANSECTS.file }, 'single-pass-only', message)];
  });
}

/** Where p is fixed nothing can move it: covariates that were asked for have no part there, which is told. */
function leftOut({ analysis }: Context): string {
  const asked = (['plant_cover', 'substrate', 'depth', 'clarity', 'cluster_size'] as const).filter(
    (name) => analysis.detection[name],
  );
  return asked.length === 0
    ? ''
    : `; ${listed(
        asked.map((name) => `detection.${name}`),
        'and',
      )} ${asked.length === 1 ? 'has' : 'have'} no part there`;
}

export function observersDifferInCase({ drafts }: Context): Finding[] {
  const findings: Finding[] = [];
  const spellings = new Map<string, Map<string, number>>();
  for (const { row, cells } of drafts.transects.rows) {
    for (const column of ['primary', 'secondary'] as const) {
      const name = cells[column];
      if (name === null) continue;
      const known = spellings.get(name.toLowerCase()) ?? new Map<string, number>();
      spellings.set(name.toLowerCase(), known);
      if (known.has(name)) continue;
      const [other] = known;
      known.set(name, row);
      if (other === undefined) continue;
      const message = `${quoted(name)} and ${quoted(other[0])} (row ${other[1]}) differ in case only; taken as two divers`;
      const spot = { table: TRANSECTS.file, row, column };
      findings.push(noticeAt(spot, 'observers-differ-in-case', message));
    }
  }
  return findings;
}
