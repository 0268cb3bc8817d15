/**
 * The application's common language: what the worker hands to the page, what is looked at, and what can be done.
 * The page never computes an estimate; the worker runs the same pipeline as the command line.
 */

import type { AreaRequest } from '../../shared/areas.ts';
import type { LngLat } from '../../shared/survey.ts';
import type { Before } from '../present/before.ts';
import type { SheetsWanted } from './core-contract.ts';
import type { PlanWanted } from './plan-contract.ts';
import type { Studies } from './study-contract.ts';
import type {
  Edit,
  JudgedView,
  LogDraft,
  MapLook,
  ResultView,
  Station,
  Work,
} from './view-contract.ts';

export type { CoreWorker, PublicText, SheetsWanted } from './core-contract.ts';
export {
  type Edit,
  type JudgedView,
  type LogDraft,
  type MapLook,
  type PaintOptions,
  type ResultView,
  type SheetView,
  STATIONS,
  type Station,
  SURFACES,
  type SurfaceName,
  USUAL_LOOK,
  type Work,
} from './view-contract.ts';

/** What the pointer or the keyboard is at, shared by map, table, cross-section and plots. */
export interface Focus {
  transect: string | null;
  substrate: string | null;
  /** depth under the pointer in a plot, m */
  depthM: number | null;
  /** index in the findings */
  finding: number | null;
  /** a spot that was pointed at on the map */
  spot: LngLat | null;
  /** a candidate treatment area, by its place in the file */
  treatment: number | null;
  /** what was chosen in a table and is to be looked at on the map; another record each time, also for the same thing */
  lookAt: { transect: string } | { treatment: number } | { rings: LngLat[][] } | null;
}

export const NO_FOCUS: Focus = {
  transect: null,
  substrate: null,
  depthM: null,
  finding: null,
  spot: null,
  treatment: null,
  lookAt: null,
};

export type Units = 'metric' | 'us';
export type Theme = 'light' | 'dark' | 'system';

/** A survey that this browser keeps. */
export interface RecentWork {
  id: string;
  name: string;
  /** ISO time of the last change */
  at: string;
  edits: number;
  /** the last estimate in a few words, null without one */
  headline: string | null;
}

/** The served folder is no longer what was opened or corrected here. */
export interface ServedChange {
  /** the folder on disk changed under the open page, or since it was corrected here the last time */
  when: 'now' | 'before';
  /** number of corrections that were made to it as it was */
  corrections: number;
}

/** Everything the page shows follows from this. */
export interface AppState {
  work: Work | null;
  /** changes that were undone and can be done again, the next one last */
  undone: Edit[];
  /** a survey is being fetched or unpacked */
  opening: boolean;
  /** the last run was cancelled: there is no result, or it is from before the last change */
  stopped: boolean;
  /** what could not be opened or saved, in a sentence; null = nothing to tell */
  trouble: string | null;
  /** where this survey is edited: in another tab or window, which this one follows, or here; null = not settled yet */
  editor: 'here' | 'elsewhere' | null;
  /** the Field log is on the screen; the estimate waits until it is left */
  log: boolean;
  /** the survey as it was last kept on disk */
  kept: Work | null;
  /** why this browser does not keep the last changes, in a sentence; null = it keeps them */
  unkept: string | null;
  /** what can be done about a served folder that changed on disk; null = it has not */
  served: ServedChange | null;
  /** the latest first */
  recent: RecentWork[];
  judged: JudgedView | null;
  result: ResultView | null;
  /** the estimate before the last change, for "what moved"; the label says what the change was */
  before: (Before & { label: string }) | null;
  run:
    | { state: 'idle' }
    | { state: 'working'; step: string; share: number }
    | { state: 'failed'; message: string };
  studies: Studies;
  station: Station;
  focus: Focus;
  mapLook: MapLook;
  units: Units;
  /** name that is kept with changes; blank = not told */
  who: string;
  theme: Theme;
  /** resolved from theme and the system */
  dark: boolean;
}

export interface AppActions {
  openFiles(files: Map<string, Uint8Array>, name: string): void;
  /** opens the survey that files of others became */
  openImported(work: Work): void;
  openDemo(): void;
  /** an empty survey of this lake, to be typed in */
  begin(lake: string): void;
  openRecent(id: string): void;
  forgetRecent(id: string): void;
  /** files and folders as chosen or dropped: a survey in our format is opened, files of others are brought in */
  openChosen(files: File[]): void;
  dismissTrouble(): void;
  close(): void;
  go(station: Station): void;
  setFocus(change: Partial<Focus>): void;
  setMapLook(change: Partial<MapLook>): void;
  /** a cell or a choice; the estimate follows */
  edit(edit: Omit<Edit, 'at' | 'before'>): void;
  /** entries of the Field log, all or none; with `join` typed on in the cell of the last one, as one change */
  enter(edits: Omit<Edit, 'at' | 'before'>[], join?: boolean): void;
  /** what the next row of the Field log will hold */
  note(change: Partial<LogDraft>): void;
  openLog(): void;
  closeLog(): void;
  undo(): void;
  redo(): void;
  cancel(): void;
  /** takes over a survey that another tab edits; that one follows from then on */
  editHere(): void;
  /** opens the served folder as it is on disk now; corrections go with it where their cells still hold what was corrected */
  openServed(): void;
  /** leaves the offer of earlier corrections alone */
  leaveServed(): void;
  /** estimates what is open once more, after a run was cancelled */
  estimateAgain(): void;
  /** `count` bootstrap replicates, or simulated surveys, of the survey as it is */
  startStudy(kind: 'bootstrap' | 'rehearsal', count: number): void;
  /** a choice of areas for a budget, from the survey as it is */
  proposeAreas(request: AreaRequest): void;
  /** the plan of these wishes on simulated surveys, each estimated again */
  checkPlan(wanted: PlanWanted, surveys: number): void;
  /** what a few more dives would bring, for each of the goals (a CV), from the survey as it is */
  fewMore(goals: readonly number[]): void;
  /** estimates the variants of these names again, and keeps what they give */
  updateVariants(names: readonly string[]): void;
  /** what came out before stays */
  cancelStudy(): void;
  /** sheets for the dives as an HTML document; rejects with a sentence when there are none to make */
  fieldSheets(wanted: SheetsWanted): Promise<string>;
  /** changes made at once, taken back at once */
  repair(edits: readonly Omit<Edit, 'at' | 'before'>[]): void;
  setWho(who: string): void;
  setUnits(units: Units): void;
  setTheme(theme: Theme): void;
  /** the station on paper, in light whatever the theme */
  print(): void;
  /** the whole survey as one zip of the open folder format */
  saveZip(): void;
  /** the result's files as one zip, with areas as they are */
  saveResult(): void;
  /** survey and results as open files, in one zip */
  saveOpenFiles(): void;
}
