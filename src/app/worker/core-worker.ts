/** The core beside the page: judges, estimates, and answers what the map asks of the last estimate. */

import * as Comlink from 'comlink';
import { formatFinding } from '../../../shared/findings.ts';
import type { FewMore } from '../../../shared/planning.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import {
  type Again,
  areaAboveRow,
  bedParts,
  estimateJudged,
  fittedJudged,
  type Judged,
  jointDensityOf,
  judge,
  type LaidLake,
  type LayLake,
  readPlanned,
  rehearseSurvey,
  treatSurvey,
  type WeightedJoint,
} from '../../pipeline.ts';
import { spotAt } from '../../present/spot.ts';
import type { CoreWorker, JudgedView } from '../contract.ts';
import { sameFiles } from '../state/files.ts';
import type { AreaBench } from './area-bench.ts';
import { domainEdge } from './edge.ts';
import { importBench } from './import-bench.ts';
import { paintBreaks, paintPixels } from './paint.ts';
import { type PaintFrame, paintFrame } from './paint-frame.ts';
import type { PlanBench } from './plan-bench.ts';
import { rememberedLake } from './remembered-lake.ts';
import { judgedView, resultView } from './views.ts';

let judged: {
  files: Map<string, Uint8Array>;
  name: string;
  value: Judged;
  laid: LaidLake | null;
} | null = null;
let kept: {
  /** those that it was estimated from */
  files: Map<string, Uint8Array>;
  result: SurveyResult;
  frame: PaintFrame | null;
  /** null without a lake or a detection */
  again: Again | null;
  laid: LaidLake | null;
  prepared: Judged['prepared'];
  /** opened when dives are first planned */
  plans?: PlanBench;
  /** opened when the first area is asked for */
  bench?: AreaBench;
  /** found when it is first asked for */
  joint?: WeightedJoint[];
} | null = null;

const lay = rememberedLake();

async function judgeOnce(files: Map<string, Uint8Array>, name: string): Promise<Judged> {
  if (judged === null || judged.name !== name || !sameFiles(judged.files, files)) {
    let laid: LaidLake | null = null;
    const noted: LayLake = (input) => {
      laid = lay(input);
      return laid;
    };
    judged = { files, name, value: await judge({ name, files }, undefined, noted), laid };
  }
  return judged.value;
}

async function bench(): Promise<AreaBench> {
  if (kept === null) throw new Error('no estimate is kept: areas have no numbers');
  const own = kept;
  // loaded when areas are asked for
  const { areaBench } = await import('./area-bench.ts');
  own.bench ??= areaBench(own, own.laid?.areas ?? null);
  return own.bench;
}

async function plans(): Promise<PlanBench> {
  if (kept === null) throw new Error('no estimate is kept: there is nothing to plan by');
  // loaded when dives are planned
  const { planBench } = await import('./plan-bench.ts');
  kept.plans ??= planBench(kept);
  return kept.plans;
}

/** Of models that are fitted for them alone; what is kept of another one stays. */
async function ownPlans(
  files: Map<string, Uint8Array>,
  name: string,
  tell: (step: string, share: number) => void,
): Promise<{ ok: true; bench: PlanBench } | { ok: false; why: string }> {
  const once = await judgeOnce(files, name);
  const laid = judged?.laid ?? null;
  const done = fittedJudged(once, tell);
  if (!done.ok) {
    const error = done.findings.findLast((f) => f.severity === 'error');
    return { ok: false, why: error ? formatFinding(error) : NOTHING_TO_BEGIN_FROM };
  }
  const { planBench } = await import('./plan-bench.ts');
  tell('plan', 0);
  return { ok: true, bench: planBench({ ...done, files, laid, prepared: once.prepared }) };
}

const NOTHING_TO_BEGIN_FROM = 'there is no estimate to begin from';

const core: CoreWorker = {
  async judge(files, name, later = false): Promise<JudgedView> {
    const once = await judgeOnce(files, name);
    const repairs = later && once.ok ? null : await once.repairs();
    return { ...judgedView(once, files, name), repairs };
  },

  async repairs(files, name) {
    return (await judgeOnce(files, name)).repairs();
  },

  async estimate(files, name, progress) {
    const tell = (step: string, share: number): void => {
      void progress(step, share);
    };
    const done = await estimateJudged(await judgeOnce(files, name), {
      progress: tell,
      compareOutside: true,
    });
    if (!done.ok) return done;
    const { result, again } = done;
    const laid = judged?.laid ?? null;
    const frame = result.bed && paintFrame(result.bed.frame, result.plane);
    const prepared = judged?.value.prepared ?? null;
    kept = { files, result, again, laid, prepared, frame };
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
    const breaks = paintBreaks(options, surface);
    return Comlink.transfer({ image, corners, breaks }, [image]);
  },

  async areaAbove(thresholdPerM2) {
    if (kept === null || kept.again === null) return null;
    kept.joint ??= jointDensityOf(kept.again);
    return areaAboveRow(kept.joint, thresholdPerM2, kept.result.analysis);
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

  async bootstrap(files, name, replicates, progress) {
    const done = await estimateJudged(await judgeOnce(files, name), {
      replicates,
      progress: (step, share) => void progress(step, share),
    });
    if (!done.ok) return done;
    const { estimate, analysis } = done.result;
    return { ok: true, study: { kind: 'bootstrap', result: { estimate, analysis } } };
  },

  async rehearse(files, name, surveys, progress) {
    const done = await rehearseSurvey({ files, name }, surveys, null, {
      progress: (step, share) => void progress(step, share),
    });
    if (!done.ok) return done;
    const { summary, level } = done;
    return { ok: true, study: { kind: 'rehearsal', summary, level } };
  },

  ...importBench,

  measureArea: async (polygons, layerM) => (await bench()).measureArea(polygons, layerM),
  holdAreas: async (areas, layerM) => (await bench()).holdAreas(areas, layerM),
  reshape: async (change) => (await bench()).reshape(change),
  areaFiles: async (areas, layerM) => (await bench()).areaFiles(areas, layerM),

  async proposeAreas(files, name, request, progress) {
    const done = await treatSurvey(
      { files, name },
      { request, excluded: null },
      { progress: (step, share) => void progress(step, share) },
    );
    if (done.ok) return { ok: true, areas: done.areas };
    const error = done.findings.findLast((f) => f.severity === 'error');
    return { ok: false, why: error?.message ?? NOTHING_TO_BEGIN_FROM };
  },

  planDives: async (wishes) => (await plans()).planDives(wishes),
  planAlternatives: async () => (await plans()).planAlternatives(),
  fewMore: async (goal) => (await plans()).fewMore(goal),
  planFiles: async (check) => (await plans()).planFiles(check),
  async planStated(files, name, stated, wishes) {
    const { statedBench } = await import('./stated-bench.ts');
    return statedBench.planStated(files, name, stated, wishes);
  },
  async statedFiles() {
    const { statedBench } = await import('./stated-bench.ts');
    return statedBench.statedFiles();
  },

  async checkPlan(files, name, wishes, surveys, progress) {
    const tell = (step: string, share: number): void => void progress(step, share);
    const own = await ownPlans(files, name, tell);
    if (!own.ok) return own;
    const made = await own.bench.planDives(wishes);
    return made.ok ? own.bench.checkPlan(surveys, (share) => tell('rehearsal', share)) : made;
  },
  async fewMoreOf(files, name, goals, progress) {
    const own = await ownPlans(files, name, (step, share) => void progress(step, share));
    if (!own.ok) return own;
    const few: FewMore[] = [];
    for (const goal of goals) {
      const made = await own.bench.fewMore(goal);
      if (!made.ok) return made;
      few.push(made.few);
    }
    return { ok: true, few };
  },

  async compareSurveys(surveys, asked, progress) {
    const { changeBench } = await import('./change-bench.ts');
    return changeBench.compareSurveys(surveys, asked, (step, of) => void progress(step, of));
  },
  async changeFiles(file) {
    const { changeBench } = await import('./change-bench.ts');
    return changeBench.changeFiles(file);
  },

  async differences(here, later, there) {
    const { compareCopies } = await import('../../pipeline/copies.ts');
    return compareCopies({ name: '', files: here }, { name: '', files: there }, later);
  },

  async outcome(files, name) {
    const done = await estimateJudged(await judgeOnce(files, name), { replicates: 0 });
    const { outcomeOf } = await import('../../present/variants.ts');
    return done.ok ? outcomeOf(done.result) : null;
  },

  async publish(variants) {
    if (kept === null) throw new Error('there is no estimate to write');
    // with the report's text and figures: loaded when the files are asked for
    const [{ publish }, { aheadOf }] = await Promise.all([
      import('../../publish/index.ts'),
      import('../../pipeline/ahead.ts'),
    ]);
    const { treatments } = kept.result.lake;
    const made = treatments.length === 0 ? null : await (await bench()).holdAreas(treatments, null);
    const held = made?.ok ? made.held : null;
    const ahead = aheadOf(kept, kept.prepared, kept.laid);
    return publish({ ...kept.result, variants }, { held, ahead });
  },

  async openFiles() {
    if (kept === null) throw new Error('there is no estimate to write');
    const { files, result, laid } = kept;
    const parts = await bedParts(kept, laid?.areas ?? null);
    const [{ openFiles }, { openTools }] = await Promise.all([
      import('../../publish/open/index.ts'),
      import('./open-tools.ts'),
    ]);
    const credits = { authors: [], taxon: null, license: null };
    return openFiles({ result, parts, files, credits }, openTools());
  },

  async fieldSheets(files, name, { paper, ...asked }) {
    const { survey, findings } = readPlanned(files, name);
    const [wrong] = findings;
    if (wrong !== undefined) return { why: `${formatFinding(wrong)}.` };
    if (survey.planned.length + asked.blank === 0)
      return {
        why: 'No row is planned and no blank sheet is asked for: there is nothing to print.',
      };
    const [{ fieldSheets }, { fieldSheetsHtml }] = await Promise.all([
      import('../../present/field-sheets.ts'),
      import('../../publish/field-sheets.ts'),
    ]);
    return { html: fieldSheetsHtml(fieldSheets(survey, { ...asked, observers: null }), paper) };
  },

  async publishPublic(wishes, coarseM) {
    if (kept === null) throw new Error('there is no estimate to tell of');
    const [{ publicMap }, { publicFiles }, { default: script }] = await Promise.all([
      import('../../present/public-map.ts'),
      import('../../publish/public-files.ts'),
      import('virtual:public-viewer'),
    ]);
    const map = publicMap(kept.result, coarseM);
    if (map === null) return null;
    const files = publicFiles(wishes, null, script);
    return files.map((file) => ({ ...file, text: file.text(map) }));
  },
};

Comlink.expose(core);
