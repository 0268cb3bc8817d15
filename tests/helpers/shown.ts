/** One result as it is shown: report, terminal summary and the stations of the page, each as plain text. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createElement, type FunctionComponent } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import type { SurveyResult } from '../../shared/result.ts';
import { SURVEY_FILES } from '../../shared/survey-files.ts';
import type { AppState, Station } from '../../src/app/contract.ts';
import { type App, AppContext } from '../../src/app/state/app-context.tsx';
import { type Action, initialState, reduce } from '../../src/app/state/reducer.ts';
import { AreasStation } from '../../src/app/stations/areas/AreasStation.tsx';
import { ChangeStation } from '../../src/app/stations/change/ChangeStation.tsx';
import { DensityStation } from '../../src/app/stations/density/DensityStation.tsx';
import { DetectionStation } from '../../src/app/stations/detection/DetectionStation.tsx';
import { LakeStation } from '../../src/app/stations/lake/LakeStation.tsx';
import { NextStation } from '../../src/app/stations/next/NextStation.tsx';
import { SurveyStation } from '../../src/app/stations/survey/SurveyStation.tsx';
import { TransectsStation } from '../../src/app/stations/transects/TransectsStation.tsx';
import { judgedView, resultView } from '../../src/app/worker/views.ts';
import { summary } from '../../src/cli/summary.ts';
import { estimateJudged, judge } from '../../src/pipeline.ts';
import { publish } from '../../src/publish/index.ts';

export interface Shown {
  result: SurveyResult;
  /** the page when the estimate is done */
  state: AppState;
  /** what estimate.json, warnings.csv and the others hold */
  files: Map<string, Uint8Array | string>;
  report: string;
  short: string;
  terminal: string;
  page: Record<Station, string>;
}

const STATIONS: Record<Station, FunctionComponent> = {
  survey: SurveyStation,
  transects: TransectsStation,
  detection: DetectionStation,
  density: DensityStation,
  lake: LakeStation,
  areas: AreasStation,
  next: NextStation,
  change: ChangeStation,
};

/** Estimates the survey in `folder` (an absolute path) as the page and the command do. Throws when it has no estimate. */
export async function shown(folder: string): Promise<Shown> {
  const own = new Set<string>(SURVEY_FILES);
  const files = new Map(
    readdirSync(folder)
      .filter((name) => own.has(name))
      .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]),
  );
  const name = 'lake';
  const judged = await judge({ name, files });
  const done = await estimateJudged(judged);
  if (!done.ok) throw new Error(done.findings.map((f) => f.message).join('\n'));
  const { result } = done;
  const steps: Action[] = [
    { type: 'open', work: { name, files, edits: [] }, id: name },
    { type: 'judged', judged: { ...judgedView(judged, files, name), repairs: null } },
    { type: 'estimated', result: { ...resultView(result, null), lake: result.lake } },
  ];
  const state = steps.reduce(reduce, initialState('metric', 'light', false, 'lake'));
  const written = publish(result);
  return {
    result,
    state,
    files: written,
    report: textOf(String(written.get('report.html'))),
    short: textOf(String(written.get('report-short.html'))),
    terminal: oneLine(summary(result, { bold: false })),
    page: pageOf(state),
  };
}

function pageOf(state: AppState): Shown['page'] {
  const text = (station: FunctionComponent) => {
    const app: App = { state, actions: untouched('actions'), core: untouched('core') };
    const page = createElement(AppContext, { value: app }, createElement(station));
    return textOf(renderToStaticMarkup(page));
  };
  return {
    survey: text(STATIONS.survey),
    transects: text(STATIONS.transects),
    detection: text(STATIONS.detection),
    density: text(STATIONS.density),
    lake: text(STATIONS.lake),
    areas: text(STATIONS.areas),
    next: text(STATIONS.next),
    change: text(STATIONS.change),
  };
}

/** A station that is drawn once does nothing. */
function untouched<T extends object>(what: string): T {
  return new Proxy({} as T, {
    get(_, key) {
      if (typeof key === 'symbol') return undefined;
      return () => {
        throw new Error(`${what}.${key} was called while a station was drawn`);
      };
    },
  });
}

/** These stand within a word or sentence; every other tag parts what is before from what is after. */
const INLINE = /<\/?(?:b|strong|i|em|abbr|dfn|sub|sup|a|wbr)(?:\s[^>]*)?>/g;
const ENTITIES: Record<string, string> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#39': "'",
  '#x27': "'",
};

function textOf(markup: string): string {
  const bare = markup
    .replace(/<(style|script)\b.*?<\/\1>/gs, ' ')
    .replace(INLINE, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(amp|lt|gt|quot|#39|#x27);/g, (_, name: string) => ENTITIES[name] ?? '');
  return oneLine(bare);
}

/** Hyphens and spaces that keep a line together are hyphens and spaces. */
function oneLine(text: string): string {
  return text.replaceAll('\u2011', '-').replace(/\s+/g, ' ').trim();
}

/** Between the cells of a row other columns may stand (acres), or a share in words. */
const BETWEEN_CELLS = '.{1,60}?';

/** The words or the cells of a row, one after the other, each whole: not within a longer number or word. */
export function stands(words: string | readonly string[], shownText: string): boolean {
  const cells = (typeof words === 'string' ? [words] : words).map(
    (cell) =>
      `(?<![\\p{L}\\p{N}]|\\p{N}[.,])${oneLine(cell).replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\p{N}]|[.,]\\p{N})`,
  );
  return new RegExp(cells.join(BETWEEN_CELLS), 'u').test(shownText);
}
