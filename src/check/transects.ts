/** Rules about single rows of transects.csv, and about its labels. */

import { errorAt, type Finding, noticeAt } from '../../shared/findings.ts';
import { TRANSECTS } from '../../shared/tables.ts';
import { plain, quoted } from '../../shared/words.ts';
import type { Context, TransectRow } from './context.ts';
import { looksLikeSpreadsheetDate } from './labels.ts';
import { orphans } from './references.ts';

/** Ropes are 30 m as a rule; a longer one is kept, but may be a slip. */
const USUAL_ROPE_M = 30;
/** Written in feet, a rope of 30 m is one of 98.43 ft (30.0015 m), or of 98.5 ft (30.023 m) where it is rounded up: no longer rope. */
const FEET_ROUNDED_M = 0.03;

const WAYPOINTS = [
  ['start_lat', 'start_lon'],
  ['end_lat', 'end_lon'],
] as const;

const at = (row: number, column: string) => ({ table: TRANSECTS.file, row, column });

export function noTransects({ drafts, planned }: Context): Finding[] {
  const { readable, complete, rows } = drafts.transects;
  if (!readable || !complete || rows.length > 0) return [];
  const message =
    planned.length === 0
      ? 'no transects: the file holds a header alone; at least one transect expected'
      : `no transects searched yet: none of the ${planned.length} planned has a date (YYYY-MM-DD expected once it was dived)`;
  return [errorAt({ table: TRANSECTS.file }, 'no-transects', message)];
}

export function duplicateLabels(context: Context): Finding[] {
  const lost = orphans(context);
  const findings: Finding[] = [];
  for (const { row, cells } of context.drafts.transects.rows) {
    if (cells.transect === null) continue;
    const first = context.transectOf.get(cells.transect)!;
    if (first.row === row) continue;
    const days =
      first.cells.date === cells.date ? '' : ', also when they were dived on different days';
    const hint =
      lost.size === 0
        ? ''
        : `; ${quoted([...lost][0])} stands in habitat.csv, but not here: is this it?`;
    const message = `duplicate transect ${quoted(cells.transect)}: row ${first.row} has this label already; labels must be unique${days}${hint}`;
    findings.push(errorAt(at(row, 'transect'), 'duplicate-transect', message));
  }
  return findings;
}

/** A planned transect has a label of its own, and waypoints that are whole or not there yet. */
export function plannedSpoilt({ planned, transectOf }: Context): Finding[] {
  const firstRow = new Map([...transectOf].map(([label, { row }]) => [label, row]));
  return planned.flatMap(({ row, cells, bad }) => {
    const findings: Finding[] = [];
    const { transect } = cells;
    const first = transect === null ? undefined : firstRow.get(transect);
    if (transect !== null && first === undefined) firstRow.set(transect, row);
    if (transect !== null && first !== undefined) {
      const message = `duplicate transect ${quoted(transect)}: row ${first} has this label already; labels must be unique, also those of planned transects`;
      findings.push(errorAt(at(row, 'transect'), 'duplicate-transect', message));
    }
    for (const [one, other] of WAYPOINTS) {
      if (bad.has(one) || bad.has(other) || (cells[one] === null) === (cells[other] === null))
        continue;
      const [blank, given] = cells[one] === null ? [one, other] : [other, one];
      const message = `blank, but ${given} is given (both or neither expected)`;
      findings.push(errorAt(at(row, blank), 'half-a-waypoint', message));
    }
    return findings;
  });
}

export function halfAnEndPoint({ drafts }: Context): Finding[] {
  const { columns, rows } = drafts.transects;
  const halves = rows.filter(({ cells, bad }) => {
    const told = bad.has('end_lat') || bad.has('end_lon');
    return !told && (cells.end_lat === null) !== (cells.end_lon === null);
  });
  const pair = ({ cells }: TransectRow) =>
    cells.end_lat === null ? (['end_lat', 'end_lon'] as const) : (['end_lon', 'end_lat'] as const);
  if (halves.length > 0) {
    const [blank, given] = pair(halves[0]);
    if (!columns.has(blank)) {
      const message = `the column is missing, but ${given} is given (both or neither expected)`;
      return [errorAt(at(1, blank), 'half-an-end-point', message)];
    }
  }
  return halves.map((half) => {
    const [blank, given] = pair(half);
    const message = `blank, but ${given} is given (both or neither expected)`;
    return errorAt(at(half.row, blank), 'half-an-end-point', message);
  });
}

export function noDirection({ drafts }: Context): Finding[] {
  const { columns, rows } = drafts.transects;
  const lost = rows.filter(({ cells, bad }) => {
    const told = ['end_lat', 'end_lon', 'bearing_deg'].some((column) => bad.has(column));
    return !told && cells.end_lat === null && cells.end_lon === null && cells.bearing_deg === null;
  });
  if (lost.length > 0 && !['end_lat', 'end_lon', 'bearing_deg'].some((c) => columns.has(c))) {
    const message =
      'no bearing and no end waypoint: the columns bearing_deg, end_lat and end_lon are all missing; a bearing or an end waypoint expected for each transect';
    return [errorAt(at(1, 'bearing_deg'), 'no-direction', message)];
  }
  const message =
    'blank, and there is no end waypoint either (a bearing or an end waypoint expected)';
  return lost.map(({ row }) => errorAt(at(row, 'bearing_deg'), 'no-direction', message));
}

export function sameDiverTwice({ drafts }: Context): Finding[] {
  return drafts.transects.rows.flatMap(({ row, cells, bad }) => {
    if (bad.has('primary') || cells.primary === null || cells.primary !== cells.secondary)
      return [];
    const message = `${quoted(cells.primary)} is the primary observer too; one observer cannot hold both roles (blank expected where nobody followed)`;
    return [errorAt(at(row, 'secondary'), 'same-diver-twice', message)];
  });
}

export function clarityBlank({ drafts, analysis }: Context): Finding[] {
  const { rows, columns } = drafts.transects;
  if (!analysis.detection.clarity || rows.length === 0) return [];
  const why = 'the detection uses it (detection.clarity is true in analysis.json)';
  const blank = ({ cells, bad }: TransectRow) => cells.clarity_m === null && !bad.has('clarity_m');
  const found = rows.filter(blank);
  if (found.length > 0 && !columns.has('clarity_m')) {
    const message = `the column is missing, but ${why} (metres expected)`;
    return [errorAt(at(1, 'clarity_m'), 'covariate-blank', message)];
  }
  const message = `blank, but ${why} (metres expected)`;
  return found.map(({ row }) => errorAt(at(row, 'clarity_m'), 'covariate-blank', message));
}

export function longRopes({ drafts }: Context): Finding[] {
  return drafts.transects.rows.flatMap(({ row, cells }) => {
    if (cells.length_m === null || cells.length_m <= USUAL_ROPE_M + FEET_ROUNDED_M) return [];
    const message = `a rope of ${plain(cells.length_m)} m, over the usual ${USUAL_ROPE_M} m; used as it stands`;
    return [noticeAt(at(row, 'length_m'), 'rope-over-30-m', message)];
  });
}

export function labelsLikeDates({ drafts }: Context): Finding[] {
  return drafts.transects.rows.flatMap(({ row, cells }) => {
    if (cells.transect === null || !looksLikeSpreadsheetDate(cells.transect)) return [];
    const message = `${quoted(cells.transect)} looks like a date: did a spreadsheet turn a label such as 3-4 into it? Used as it stands`;
    return [noticeAt(at(row, 'transect'), 'label-like-date', message)];
  });
}
