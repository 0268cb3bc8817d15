/** What the worker does for the page; it runs the same pipeline as the command line. */

import type { Differences } from '../../shared/differences.ts';
import type { Finding } from '../../shared/findings.ts';
import type { Change } from '../../shared/history.ts';
import type { PublicWishes } from '../../shared/public-map.ts';
import type { Repair } from '../../shared/repairs.ts';
import type { LngLat } from '../../shared/survey.ts';
import type { Variant, VariantOutcome } from '../../shared/variants.ts';
import type { AreaAboveRow } from '../present/area-above.ts';
import type { Spot } from '../present/spot.ts';
import type { AreaWorker } from './area-contract.ts';
import type { ChangeWorker } from './change-contract.ts';
import type { ImportWorker } from './import-contract.ts';
import type { PlanWorker } from './plan-contract.ts';
import type { Study } from './study-contract.ts';

import type { JudgedView, PaintOptions, ResultView } from './view-contract.ts';

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
