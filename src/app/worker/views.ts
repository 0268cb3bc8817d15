/** What the worker hands to the page, from what the pipeline made: without what cannot cross or is too large. */

import type { SurveyResult } from '../../../shared/result.ts';
import type { Lake } from '../../../shared/survey.ts';
import type { Judged } from '../../pipeline.ts';
import type { JudgedView, ResultView } from '../contract.ts';
import { thinLake } from './lake-view.ts';
import type { PaintFrame } from './paint-frame.ts';
import { sheetViews } from './sheets.ts';

/** Of the changes of earlier sessions so many are listed. */
const MOST_PAST = 100;

/** Sent once, with the judged survey; the page puts it back. */
const SENT_BEFORE: Lake = { outline: null, substrate: null, depth: null, treatments: [] };

export function judgedView(
  { read, findings, ok, shown }: Pick<Judged, 'read' | 'findings' | 'ok' | 'shown'>,
  files: Map<string, Uint8Array>,
  name: string,
): Omit<JudgedView, 'repairs'> {
  return {
    name,
    sheets: sheetViews(files),
    findings,
    past: { count: read.history.length, last: read.history.slice(-MOST_PAST) },
    ok,
    analysis: read.analysis,
    fingerprint: read.fingerprint,
    lake: thinLake(read.lake),
    survey: read.survey,
    planned: read.planned,
    placed: shown?.placed ?? [],
    segments: shown?.segments ?? [],
    domain: shown?.domain ?? null,
  };
}

export function resultView(result: SurveyResult, frame: PaintFrame | null): ResultView {
  const { plane, bed, surface: _, ...rest } = result;
  return {
    ...rest,
    lake: SENT_BEFORE,
    planeProj: plane.proj,
    grid:
      bed === null || frame === null
        ? null
        : {
            nx: bed.frame.nx,
            ny: bed.frame.ny,
            cellM: bed.frame.cellM,
            corners: frame.gridCorners,
          },
  };
}
