/** What the page shows: the survey that is open with its changes, what the worker hands over of it, and how the map is looked at. */

import type { Analysis } from '../../shared/analysis.ts';
import type { Finding } from '../../shared/findings.ts';
import type { Change } from '../../shared/history.ts';
import type { Repair } from '../../shared/repairs.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Domain, Lake, LngLat, PlacedTransect, Segment, Survey } from '../../shared/survey.ts';
import type { PlannedRow } from '../present/planned.ts';

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
