/**
 * What import hands around: files as they came, what was read out of them, what is asked about them, and what they become.
 * The answers are kept by the identifiers of the questions, which say what is asked and never how a file is called: next
 * year's files come in by the same answers.
 */

import type { Finding } from './findings.ts';
import type { LngLat } from './survey.ts';

export interface GivenFile {
  /** as it came, without folders */
  name: string;
  bytes: Uint8Array;
}

/** A cell as its spreadsheet means it: numbers as shortest decimals with a point, dates as YYYY-MM-DD (with THH:MM:SS where a time was kept). */
export interface RawCell {
  text: string;
  kind: 'text' | 'number' | 'date' | 'error' | 'blank';
}

/** A sheet as it lies in its file, headers and titles among the rows. */
export interface RawTable {
  file: string;
  /** of a workbook; null for a file that is one table */
  sheet: string | null;
  /** `row` counts as the spreadsheet shows it */
  rows: { row: number; cells: RawCell[] }[];
  /** what the reader had to settle (delimiter, encoding, merged cells), one sentence each */
  remarks: string[];
}

/** What a file says of its coordinate system. */
export type GivenCrs =
  | { kind: 'epsg'; code: number }
  /** as .prj files and GeoPackages hold it (version 1 of the notation) */
  | { kind: 'wkt'; text: string }
  /** a definition put together from the keys of a raster */
  | { kind: 'proj'; text: string }
  | { kind: 'none' };

/** As in RFC 7946, but in the coordinates of its layer: x east and y north, longitude and latitude where it is placed. */
export type RawGeometry =
  | { type: 'Point'; coordinates: number[] }
  | { type: 'MultiPoint' | 'LineString'; coordinates: number[][] }
  | { type: 'MultiLineString' | 'Polygon'; coordinates: number[][][] }
  | { type: 'MultiPolygon'; coordinates: number[][][][] };

/** All positions of a shape, one after another. */
export function positionsOf(geometry: RawGeometry): number[][] {
  switch (geometry.type) {
    case 'Point':
      return [geometry.coordinates];
    case 'MultiPoint':
    case 'LineString':
      return geometry.coordinates;
    case 'MultiLineString':
    case 'Polygon':
      return geometry.coordinates.flat();
    case 'MultiPolygon':
      return geometry.coordinates.flat(2);
  }
}

export type RawValue = string | number | null;

export interface RawFeature {
  geometry: RawGeometry;
  properties: Record<string, RawValue>;
  /** where a person finds it: row of a table, number of a feature (from 1) */
  row: number;
}

/** Shapes of one kind and one coordinate system: a shapefile, a layer, the waypoints of a GPS, points from a table. */
export interface RawLayer {
  file: string;
  /** name within the file (`waypoints` and `tracks` of a GPS); null where the file is one layer */
  layer: string | null;
  /** what it was read from */
  from: 'map' | 'gps' | 'table';
  crs: GivenCrs;
  features: RawFeature[];
  remarks: string[];
}

export interface RawRaster {
  file: string;
  crs: GivenCrs;
  width: number;
  height: number;
  /** x and y of the outer corner of the first cell; steps per column (> 0) and per row (< 0 where rows run south) */
  corner: [x: number, y: number];
  step: [x: number, y: number];
  /** by rows; NaN where there is no value */
  values: Float32Array;
  /** unit of the values, where the file names one: `m`, `ft` or its own word */
  unit?: string;
  /** the file as it came; null where the values are not those of a file */
  original: Uint8Array | null;
  remarks: string[];
}

/** A raster whose place on the globe is known. */
export interface PlacedRaster extends RawRaster {
  /** of a place in the raster's own coordinates, and back */
  toLngLat(x: number, y: number): LngLat;
  fromLngLat(place: LngLat): [x: number, y: number];
  /** null where the values were put on another grid, which `crs`, `corner` and `step` describe */
  original: Uint8Array | null;
}

/** Text cells under the column names of shared/tables.ts, and under their own names for columns that we do not know. */
export interface ImportedRow {
  cells: Record<string, string>;
  /** `sheet "Dives" row 7` or `dives.csv row 7` */
  place: string;
}

/** The sheets after their columns were matched: what the survey's tables of the same names will hold. */
export interface ImportedTables {
  transects: ImportedRow[];
  habitat: ImportedRow[];
  detections: ImportedRow[];
  planted_shells: ImportedRow[];
}

/** An answer: an option or words, a number, or one option for each key. */
export type Answer = string | number | { [key: string]: string };

export interface Option {
  /** what is kept in import.json: short, kebab-case or a code, the same every year */
  value: string;
  label: string;
  /** what speaks for or against it, measured */
  because?: string;
}

interface QuestionCore {
  /** what is asked, stable across years and file names: `depth.unit`, `outline.crs`, `transects.columns` */
  id: string;
  /** file, sheet and column that it is about, for people */
  about: string;
  /** one sentence with a question mark, in a biologist's words */
  ask: string;
  /** what was measured, one sentence each; at least one */
  evidence: string[];
  /** true: the evidence leaves no second reading, `--yes` may take the proposal */
  certain: boolean;
  pictures: ImportPicture[];
}

export type Question =
  | (QuestionCore & { kind: 'choice'; options: Option[]; proposal: string | null })
  | (QuestionCore & {
      kind: 'number';
      unit: string;
      least: number;
      most: number;
      proposal: number | null;
    })
  | (QuestionCore & { kind: 'text'; proposal: string | null })
  /** one option for each key: columns of a sheet, codes of a map */
  | (QuestionCore & {
      kind: 'matching';
      keys: { key: string; label: string }[];
      options: Option[];
      proposal: { [key: string]: string } | null;
    });

/** Labels of the keys of a matching for which nothing is proposed: such a proposal is a beginning, and no answer by itself. */
export function notProposed(question: Question): string[] {
  if (question.kind !== 'matching') return [];
  const { keys, proposal } = question;
  return keys.flatMap(({ key, label }) =>
    proposal !== null && Object.hasOwn(proposal, key) ? [] : [label],
  );
}

/** Drawn beside a question in the app; told in a line in the terminal. */
export type ImportPicture =
  /** in longitude and latitude; `option`: drawn for that answer only */
  | { kind: 'map'; caption: string; shapes: PictureShape[] }
  /** divers' value across, map's value up, with a line of this slope and intercept */
  | {
      kind: 'scatter';
      caption: string;
      xLabel: string;
      yLabel: string;
      points: { x: number; y: number }[];
      slope: number;
      intercept: number;
    }
  | { kind: 'table'; caption: string; header: string[]; rows: string[][] };

export interface PictureShape {
  look: 'area' | 'line' | 'point' | 'fault';
  /** '' for a second shape of what the one before it says */
  label: string;
  option: string | null;
  geometry: RawGeometry;
}

/**
 * The answer that was given; where none was, the proposal, so that all that depends on it can be asked in the same pass, and the
 * question is left open. Null where nothing was answered and nothing is proposed: leave out what depends on it.
 */
export type Ask = <Q extends Question>(question: Q) => AnswerTo<Q> | null;

export type AnswerTo<Q extends Question> = Q extends { kind: 'number' }
  ? number
  : Q extends { kind: 'matching' }
    ? { [key: string]: string }
    : string;

export interface AskedQuestion {
  question: Question;
  /** null: open */
  answer: Answer | null;
  /** by whom it was settled */
  by: 'answers' | 'proposal' | null;
  /** an answer was given that is not possible here (a column that is gone, a number beyond the limits): why, in a sentence */
  refused: string | null;
}

/** import.json */
export interface ImportRecord {
  schema: 'shoalwise/import/1';
  version: string;
  files: { name: string; sha256: string; bytes: number }[];
  questions: {
    id: string;
    about: string;
    ask: string;
    evidence: string[];
    proposal: Answer | null;
    certain: boolean;
    answer: Answer;
  }[];
  /** what was settled without a question, one sentence each */
  remarks: string[];
  /** what was made; where a file of the folder is another one now, somebody has worked on it since */
  made: { name: string; sha256: string }[];
}

export interface ImportOutcome {
  /** in the order in which they are best answered */
  questions: AskedQuestion[];
  findings: Finding[];
  remarks: string[];
  /** of what was done without a question, for the review */
  pictures: ImportPicture[];
  /** the survey's files, import.json among them; null while a question is open or an error stands */
  files: Map<string, Uint8Array> | null;
}
