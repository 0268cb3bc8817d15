/** Roles that are missing: of the observers on a transect, and of who found a cluster. */

import type { Finding } from '../../shared/findings.ts';
import type { Role } from '../../shared/survey.ts';
import { quoted } from '../../shared/words.ts';
import {
  D,
  type Desk,
  type DetectionDraft,
  made,
  type Proposal,
  T,
  type TransectDraft,
  unknown,
} from './desk.ts';

type Column = 'primary' | 'secondary';

export function observersMissing(desk: Desk): Proposal[] {
  return [
    ...desk
      .told('missing-value')
      .filter(({ table, column }) => table === T && column === 'primary')
      .map((finding) => observer(desk, finding, 'primary')),
    ...desk.told('same-diver-twice').map((finding) => observer(desk, finding, 'secondary')),
    ...singlePass(desk),
    ...neverSwapped(desk),
  ];
}

/** Who is missing, from the pair that dived with the one who is there; who of both, from their taking turns. */
function observer(desk: Desk, finding: Finding, column: Column): Proposal {
  const at = desk.transects.findIndex(({ row }) => row === finding.row);
  const draft = desk.transects[at];
  if (draft === undefined) return unknown([finding], 'the row could not be read');
  const other = column === 'primary' ? draft.cells.secondary : draft.cells.primary;
  const partners = partnersOf(desk, draft, other);
  if (other !== null && partners.length === 1 && partners[0] !== undefined) {
    const [partner] = partners;
    return setTo(
      desk,
      draft,
      column,
      partner.name,
      finding,
      `${quoted(other)} dived with ${quoted(partner.name)} on all ${partner.times} other two-pass transects${partner.sameDay ? ' of that day' : ''}${turnsOf(desk, at, column, partner.name)}`,
    );
  }
  if (other === null) {
    const [above, below] = [desk.transects[at - 1], desk.transects[at + 1]];
    const alike = above !== undefined && below !== undefined && samePair(above, below);
    const name = alike ? above.cells[column === 'primary' ? 'secondary' : 'primary'] : null;
    if (name !== null && above?.cells.primary === below?.cells.primary)
      return setTo(
        desk,
        draft,
        column,
        name,
        finding,
        `the pair takes turns: ${quoted(above?.cells.primary ?? '')} was primary on the transects before and after`,
      );
  }
  return unknown(
    [finding],
    other === null
      ? 'neither role is named, and the transects before and after do not take turns: the sheet must tell'
      : `${quoted(other)} dived with ${partners.length === 0 ? 'nobody else' : `${partners.length} others`}: the sheet must tell who followed whom`,
  );
}

function setTo(
  desk: Desk,
  { row }: TransectDraft,
  column: Column,
  name: string,
  finding: Finding,
  why: string,
): Proposal {
  return {
    title: `Set ${column} to ${name} (row ${row})`,
    why,
    edits: made([desk.change(T, row, column, name)]),
    answers: [finding],
  };
}

/** Who dived with this observer, on the same day where there is anybody, else in the whole survey. */
function partnersOf(desk: Desk, draft: TransectDraft, other: string | null) {
  if (other === null) return [];
  const count = (drafts: TransectDraft[]) => {
    const names = new Map<string, number>();
    for (const { row, cells } of drafts) {
      if (row === draft.row || cells.primary === null || cells.secondary === null) continue;
      if (cells.primary === cells.secondary) continue;
      if (cells.primary !== other && cells.secondary !== other) continue;
      const name = cells.primary === other ? cells.secondary : cells.primary;
      names.set(name, (names.get(name) ?? 0) + 1);
    }
    return names;
  };
  const today = count(desk.transects.filter(({ cells }) => cells.date === draft.cells.date));
  const sameDay = today.size > 0;
  const names = sameDay ? today : count(desk.transects);
  return [...names].map(([name, times]) => ({ name, times, sameDay }));
}

function turnsOf(desk: Desk, at: number, column: Column, name: string): string {
  const [above, below] = [desk.transects[at - 1], desk.transects[at + 1]];
  const opposite = column === 'primary' ? 'secondary' : 'primary';
  const turn = [above, below].filter((draft) => draft?.cells[opposite] === name).length;
  return turn === 2 ? ', and the roles then alternate with the transects before and after' : '';
}

function samePair(a: TransectDraft, b: TransectDraft): boolean {
  const pair = ({ cells }: TransectDraft) => [cells.primary, cells.secondary].sort().join('\n');
  return pair(a) === pair(b);
}

/** Detections of a secondary observer whom no cell names. */
function singlePass(desk: Desk): Proposal[] {
  const byRow = new Map<number, { draft: TransectDraft; findings: Finding[] }>();
  for (const finding of desk.told('secondary-on-single-pass')) {
    const label = desk.text(D, finding.row ?? 0, 'transect');
    const draft = label === null ? undefined : desk.transectOf.get(label);
    if (draft === undefined) continue;
    const known = byRow.get(draft.row) ?? { draft, findings: [] };
    byRow.set(draft.row, { draft, findings: [...known.findings, finding] });
  }
  return [...byRow.values()].map(({ draft, findings }) => {
    const [first] = findings as [Finding];
    const proposal = observer(desk, { ...first, row: draft.row }, 'secondary');
    const why = `${findings.length} of its detections ${findings.length === 1 ? 'is' : 'are'} of a secondary observer; ${proposal.why}`;
    return { ...proposal, why, answers: findings };
  });
}

function neverSwapped(desk: Desk): Proposal[] {
  return desk
    .told('roles-never-swapped')
    .map((finding) =>
      unknown(
        [finding],
        'roles that were swapped by mistake, on all sheets or on one, leave no trace in the tables: only the sheets tell who searched first',
      ),
    );
}

export function detectionRolesMissing(desk: Desk): Proposal[] {
  return desk
    .told('missing-value')
    .filter(({ table, column }) => table === D && column === 'role')
    .map((finding) => roleOf(desk, finding));
}

/** Sheets list what one observer found along the transect, then what the other did: which role keeps the lists whole? */
function roleOf(desk: Desk, finding: Finding): Proposal {
  const row = finding.row ?? 0;
  const label = desk.text(D, row, 'transect');
  const rows = label === null ? [] : (desk.detectionsOf.get(label) ?? []);
  const on = label === null ? undefined : desk.transectOf.get(label);
  const set = (role: Role, why: string, certain = false): Proposal => ({
    title: `Set role to ${role} (row ${row})`,
    why,
    edits: made([desk.change(D, row, 'role', role)]),
    certain,
    answers: [finding],
  });
  if (
    on !== undefined &&
    on.cells.primary !== null &&
    on.cells.secondary === null &&
    !on.bad.has('secondary')
  )
    return set(
      'primary',
      `the transect is a single pass: row ${on.row} of ${T} names no secondary`,
      true,
    );
  const [primary, secondary] = (['primary', 'secondary'] as const).map((role) =>
    listsOf(rows, row, role),
  );
  if (primary === undefined || secondary === undefined || primary === secondary)
    return unknown(
      [finding],
      'as either role the row fits the rows before and after: the sheet must tell who found it',
    );
  const role = primary < secondary ? 'primary' : 'secondary';
  return set(
    role,
    `the rows of this transect are lists of increasing distance, one an observer; with ${role} here they are ${Math.min(primary, secondary)} pieces, otherwise ${Math.max(primary, secondary)}`,
  );
}

/** Pieces of one role and increasing distance, each further list of the same role counted twice. */
function listsOf(rows: readonly DetectionDraft[], row: number, role: Role): number {
  let [pieces, again] = [0, 0];
  const seen = new Set<string | null>();
  let before: { role: string | null; distanceM: number | null } | null = null;
  for (const draft of rows) {
    const here = {
      role: draft.row === row ? role : draft.cells.role,
      distanceM: draft.cells.distance_m,
    };
    const goesOn =
      before !== null &&
      before.role === here.role &&
      (here.distanceM ?? 0) >= (before.distanceM ?? 0);
    if (!goesOn) {
      pieces++;
      if (seen.has(here.role)) again++;
      seen.add(here.role);
    }
    before = here;
  }
  return pieces + again;
}
