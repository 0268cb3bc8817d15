/**
 * The application's common language: what the worker hands to the page, what is looked at, and what can be done.
 * The page never computes an estimate; the worker runs the same pipeline as the command line.
 */

import type { Analysis } from '../../shared/analysis.ts';
import type { AreaRequest } from '../../shared/areas.ts';
import type { Differences } from '../../shared/differences.ts';
import type { Finding } from '../../shared/findings.ts';
import type { Change } from '../../shared/history.ts';
import type { PublicWishes } from '../../shared/public-map.ts';
import type { Repair } from '../../shared/repairs.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Domain, Lake, LngLat, PlacedTransect, Segment, Survey } from '../../shared/survey.ts';
import type { Variant, VariantOutcome } from '../../shared/variants.ts';
import type { AreaAboveRow } from '../present/area-above.ts';
import type { Before } from '../present/before.ts';
import type { PlannedRow } from '../present/planned.ts';
import type { Spot } from '../present/spot.ts';
import type { AreaWorker } from './area-contract.ts';
import type { ChangeWorker } from './change-contract.ts';
import type { ImportWorker } from './import-contract.ts';
import type { PlanWanted, PlanWorker } from './plan-contract.ts';
import type { Studies, Study } from './study-contract.ts';

/** The marks on the rope, in the order in which data travel. */
export const STATIONS = [
  'survey',
  'transects',
  'detection',
  'density',
  'lake',
  'areas',
  'next',
  'change',
] as const;
export type Station = (typeof STATIONS)[number];

/** A folder of the open survey format as text or bytes, with every change that was made to it. */
export interface Work {
  /** folder name */
  name: string;
  /** file name → content */
  files: Map<string, Uint8Array>;
  edits: Edit[];
  /** what stands in the Field log and is in no table yet */
  draft?: LogDraft;
  /** key of the folder that the server serves, when the survey came from there */
  servedFrom?: string;
}

/** Where the Field log is, and what was tapped for the next row; texts as they will stand in the cells. */
export interface LogDraft {
  /** spreadsheet row of transects.csv; null = none is chosen */
  transect: number | null;
  tab: 'transect' | 'habitat' | 'detections';
  /** of the next break */
  breakM: string;
  depthM: string;
  substrate: string;
  plantCover: string;
  /** of the next detection */
  foundM: string;
  offsetM: string;
}

/** One corrected cell (or choice of analysis.json, or variant); kept with the old value and the reason. */
export interface Edit {
  /** `transects.csv`, …, `analysis.json` or `variants.json` */
  file: string;
  /** spreadsheet row; null for analysis.json; place in the list of variants.json */
  row: number | null;
  /** column, or dotted key of analysis.json */
  column: string;
  before: string;
  after: string;
  reason: string;
  /** ISO time */
  at: string;
  /** who made it; left out where that was not told */
  who?: string;
  /** the same for changes that were made at once, and are taken back at once */
  together?: string;
}

/** A table as a grid of text, for the Survey station; rows by spreadsheet number (header = 1). */
export interface SheetView {
  file: string;
  header: string[];
  rows: { row: number; cells: string[] }[];
}

/** What can be shown before or without an estimate. */
export interface JudgedView {
  name: string;
  sheets: SheetView[];
  findings: Finding[];
  /** what could be done about them; null = not worked out yet */
  repairs: Repair[] | null;
  /** changes of earlier sessions: how many, and the last ones */
  past: { count: number; last: Change[] };
  ok: boolean;
  analysis: Analysis;
  /** of the survey's files, choices and variants aside */
  fingerprint: string;
  lake: Lake;
  survey: Survey;
  /** rows of transects.csv without a date */
  planned: PlannedRow[];
  /** as far as they could be placed and cut */
  placed: PlacedTransect[];
  segments: Segment[];
  domain: Domain | null;
}

/** The result without what cannot cross to the page (functions) or is too large for it (pieces of bed). */
export type ResultView = Omit<SurveyResult, 'plane' | 'bed' | 'surface'> & {
  planeProj: string;
  /** frame of the grid and its corners (nw, ne, se, sw); null without a lake */
  grid: { nx: number; ny: number; cellM: number; corners: [LngLat, LngLat, LngLat, LngLat] } | null;
};

/** What is drawn on the bed of the surveyed habitat: density, the chance that it exceeds a threshold, or its CV. */
export const SURFACES = ['density', 'chance', 'cv'] as const;
export type SurfaceName = (typeof SURFACES)[number];

/** How the bed is looked at; nothing of it changes the estimate. */
export interface MapLook {
  surface: SurfaceName;
  /** classes of density spread over this lake's range, in place of those that are fixed over lakes and years */
  stretched: boolean;
  /** set beside the legend; null = the analysis' own */
  thresholdPerM2: number | null;
}

export const USUAL_LOOK: MapLook = { surface: 'density', stretched: false, thresholdPerM2: null };

/** What the surface on the bed is painted with. */
export interface PaintOptions {
  dark: boolean;
  surface: SurfaceName;
  stretched: boolean;
  /** mussels per m², for the chance */
  thresholdPerM2: number;
  /** light up one depth band, from–to in m, or one label of the bed (`sand`, `sand+gravel`); null = none */
  depthM: { from: number; to: number } | null;
  substrate: string | null;
}

type Studied = { ok: true; study: Study } | { ok: false; findings: Finding[] };

/** A file for the public, with its text. */
export interface PublicText {
  kind: 'map' | 'poster' | 'picture';
  name: string;
  /** width and height of a picture */
  pixels: [width: number, height: number] | null;
  text: string;
}

/** Sheets for the dives, as somebody wants them. */
export interface SheetsWanted {
  paper: 'a4' | 'letter';
  /** sheets without a planned transect */
  blank: number;
  /** pages for detections, of each transect */
  detectionPages: number;
}

/** Served by the worker through Comlink. */
export interface CoreWorker extends AreaWorker, ChangeWorker, ImportWorker, PlanWorker {
  /** @param later a survey that can be estimated comes without its repairs */
  judge(files: Map<string, Uint8Array>, name: string, later?: boolean): Promise<JudgedView>;
  /** what could be done about the errors and notices of the survey */
  repairs(files: Map<string, Uint8Array>, name: string): Promise<Repair[]>;
  /** cancels a run under way; progress is told between steps */
  estimate(
    files: Map<string, Uint8Array>,
    name: string,
    progress: (step: string, share: number) => void,
  ): Promise<{ ok: true; result: ResultView } | { ok: false; findings: Finding[] }>;
  /** north-up in Web Mercator rows and columns when the lake is wide, ready for an image source; null without a grid */
  paint(options: PaintOptions): Promise<{
    image: ImageBitmap;
    corners: [LngLat, LngLat, LngLat, LngLat];
    /** values at which the next class begins */
    breaks: readonly number[];
  } | null>;
  /** the area above a threshold with its interval, from the last fit; null without a lake or a detection */
  areaAbove(thresholdPerM2: number): Promise<AreaAboveRow | null>;
  spot(at: LngLat): Promise<Spot>;
  /** rings around the cells inside the surveyed domain; null without a surface */
  edge(): Promise<LngLat[][] | null>;
  /** the estimate with so many bootstrap replicates */
  bootstrap(
    files: Map<string, Uint8Array>,
    name: string,
    replicates: number,
    progress: (step: string, share: number) => void,
  ): Promise<Studied>;
  /** a simulation study of so many surveys from the fitted model */
  rehearse(
    files: Map<string, Uint8Array>,
    name: string,
    surveys: number,
    progress: (step: string, share: number) => void,
  ): Promise<Studied>;
  /** what the estimate gives, to be kept with a variant; null when there is none */
  outcome(files: Map<string, Uint8Array>, name: string): Promise<VariantOutcome | null>;
  /** every file of the result, as the command line writes them; the variants are those that are kept now */
  publish(variants: Variant[]): Promise<Map<string, Uint8Array | string>>;
  /** the survey that was estimated last and its results, in formats that other programs read */
  openFiles(): Promise<Map<string, Uint8Array>>;
  /** two copies of a survey; `later` are changes of this session, made in `here` already */
  differences(
    here: Map<string, Uint8Array>,
    later: Change[],
    there: Map<string, Uint8Array>,
  ): Promise<Differences>;
  /** sheets for the dives as an HTML document, or why there are none */
  fieldSheets(
    files: Map<string, Uint8Array>,
    name: string,
    wanted: SheetsWanted,
  ): Promise<{ html: string } | { why: string }>;
  /** the map for the public, posters and pictures, as the command line writes them; null without the lake's outline */
  publishPublic(wishes: PublicWishes, coarseM: number | null): Promise<PublicText[] | null>;
}

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
