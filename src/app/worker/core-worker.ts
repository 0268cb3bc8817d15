/** The core beside the page: judges, estimates, and answers what the map asks of the last estimate. */

import * as Comlink from 'comlink';
import type { SurveyResult } from '../../../shared/result.ts';
import type { Lake } from '../../../shared/survey.ts';
import { estimateJudged, type Judged, judge } from '../../pipeline.ts';
import { spotAt } from '../../present/spot.ts';
import type { CoreWorker, JudgedView, ResultView } from '../contract.ts';
import { sameFiles } from '../state/files.ts';
import { domainEdge } from './edge.ts';
import { thinLake } from './lake-view.ts';
import { type PaintFrame, paintFrame, paintPixels } from './paint.ts';
import { rememberedLake } from './remembered-lake.ts';
import { sheetViews } from './sheets.ts';

/** Sent once, with the judged survey; the page puts it back. */
const SENT_BEFORE: Lake = { outline: null, substrate: null, depth: null, treatments: [] };

let judged: { files: Map<string, Uint8Array>; name: string; value: Judged } | null = null;
let kept: { result: SurveyResult; frame: PaintFrame | null } | null = null;

const lay = rememberedLake();

async function judgeOnce(files: Map<string, Uint8Array>, name: string): Promise<Judged> {
  if (judged === null || judged.name !== name || !sameFiles(judged.files, files))
    judged = { files, name, value: await judge({ name, files }, undefined, lay) };
  return judged.value;
}

const core: CoreWorker = {
  async judge(files, name): Promise<JudgedView> {
    const { read, findings, ok, shown } = await judgeOnce(files, name);
    return {
      name,
      sheets: sheetViews(files),
      findings,
      ok,
      analysis: read.analysis,
      lake: thinLake(read.lake),
      survey: read.survey,
      placed: shown?.placed ?? [],
      segments: shown?.segments ?? [],
      domain: shown?.domain ?? null,
    };
  },

  async estimate(files, name, progress) {
    const tell = (step: string, share: number): void => {
      void progress(step, share);
    };
    const done = await estimateJudged(await judgeOnce(files, name), { progress: tell });
    if (!done.ok) return done;
    const { result } = done;
    kept = { result, frame: result.bed && paintFrame(result.bed.frame, result.plane) };
    return { ok: true, result: resultView(result, kept.frame) };
  },

  async paint(options) {
    if (kept?.frame == null || kept.result.surface === null) return null;
    const { bed, surface, analysis, estimate } = kept.result;
    const pixels = paintPixels(kept.frame, bed!, surface, options, {
      level: analysis.interval,
      transectEffect: estimate.model.transect_effect,
      transects: estimate.data.transects,
    });
    const { width, height, corners } = kept.frame;
    const image = await createImageBitmap(new ImageData(pixels, width, height), {
      premultiplyAlpha: 'none',
    });
    return Comlink.transfer({ image, corners }, [image]);
  },

  async spot(at) {
    if (kept === null) throw new Error('no estimate is kept: nothing can be told of a spot');
    return spotAt(kept.result, at);
  },

  async edge() {
    if (kept?.result.bed == null || kept.result.surface === null) return null;
    const { bed, surface, plane } = kept.result;
    return domainEdge(surface.inside, bed.frame, plane);
  },

  async publish() {
    if (kept === null) throw new Error('there is no estimate to write');
    // with the report's text and figures: loaded when the files are asked for
    const { publish } = await import('../../publish/index.ts');
    return publish(kept.result);
  },
};

function resultView(result: SurveyResult, frame: PaintFrame | null): ResultView {
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

Comlink.expose(core);
