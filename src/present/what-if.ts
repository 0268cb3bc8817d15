/**
 * What if an assumption is wrong: each assumption that the number rests on and that no interval covers, and what the total
 * would be if it did not hold. One is changed at a time, the others stay. A new one is one more function in LINES.
 */

import { extent } from '../../shared/extent.ts';
import { term, terms } from '../../shared/glossary.ts';
import type { OtherModel, SurveyResult } from '../../shared/result.ts';
import {
  formatArea,
  formatPercent,
  formatToStep,
  roundingStep,
  type UnitSystem,
} from '../../shared/units.ts';
import { exclusionWords } from './exclusions.ts';
import { changeText, readInfluence } from './influence.ts';
import { modelNamer } from './model-names.ts';
import { withoutPlanted } from './planted-shells.ts';
import { ciName, quantity } from './quantity.ts';

/** Share of the clusters that neither observer can detect, as a dial: from 0 to `most`. */
export const UNDETECTED = { usual: 0.1, most: 0.3, step: 0.01 } as const;

/** Pairs of substrates named. */
const MOST_APART = 3;

export type Assumption =
  | 'undetected'
  | 'planted'
  | 'alike'
  | 'unsurveyed'
  | 'recorded'
  | 'borders'
  | 'transect'
  | 'model';

export interface WhatIfLine {
  of: Assumption;
  /** several lines can be of one assumption */
  key: string;
  /** what is taken for granted */
  assumed: string;
  /** `if 10 % of the clusters can be detected by neither observer` */
  otherwise: string;
  /** `204,000`, `184,000 to 259,000` */
  total: string;
  /** `+11 %`, `0 % to +41 %` */
  change: string;
  /** relative changes, for a drawing; equal where there is one */
  from: number;
  to: number;
  /** how it is computed, in a sentence */
  how: string;
}

export interface WhatIfRead {
  /** says that nothing of this is in the interval */
  opening: string;
  /** the number itself and its interval as relative changes, to hold the lines against; null without an interval */
  interval: { name: string; text: string; change: string; from: number; to: number } | null;
  lines: WhatIfLine[];
  /** the drawing reaches from here to there */
  reach: { from: number; to: number };
  /** what could not be computed, and why */
  missing: string[];
}

export type WhatIfResult = Pick<
  SurveyResult,
  'estimate' | 'models' | 'whatIf' | 'checks' | 'survey' | 'analysis'
>;

interface Input {
  result: WhatIfResult;
  mussels: { estimate: number; se: number | null; lower: number | null; upper: number | null };
  units: UnitSystem;
  undetected: number;
}

const LINES: readonly ((input: Input) => WhatIfLine[])[] = [
  undetectedLine,
  plantedLine,
  alikeLine,
  unsurveyedLine,
  recordedLine,
  borderLine,
  transectLine,
  modelLines,
];

/**
 * @param undetected share of the clusters that neither observer can detect, from 0 to UNDETECTED.most
 * @returns null without a number of mussels above 0
 */
export function readWhatIf(
  result: WhatIfResult,
  units: UnitSystem = 'metric',
  undetected: number = UNDETECTED.usual,
): WhatIfRead | null {
  const mussels = result.estimate.abundance?.mussels ?? null;
  if (mussels === null || !(mussels.estimate > 0)) return null;
  const lines = LINES.flatMap((line) => line({ result, mussels, units, undetected }));
  const interval = intervalLine(mussels, result.analysis.interval);
  const [from, to] = extent([
    0,
    ...[interval, ...lines].flatMap((l) => (l === null ? [] : [l.from, l.to])),
  ]);
  return {
    opening: `Each line changes one assumption and leaves the others as they are. None of this is in the ${term('confidenceInterval')}, which covers chance in where mussels lay and in what was detected${interval === null ? '' : `: ${interval.change} around the number`}. Several can be wrong at once.`,
    interval,
    lines,
    reach: { from, to },
    missing: missingLines(result),
  };
}

function intervalLine(
  { estimate, lower, upper, se }: Input['mussels'],
  level: number,
): WhatIfRead['interval'] {
  if (lower === null || upper === null) return null;
  const [from, to] = [lower / estimate - 1, upper / estimate - 1];
  const text = quantity({ estimate, lower, upper, se });
  return {
    name: ciName(level),
    text: `${text.estimate} (${text.interval})`,
    change: changeOf(from, to),
    from,
    to,
  };
}

function undetectedLine({ mussels, undetected }: Input): WhatIfLine[] {
  const change = 1 / (1 - undetected) - 1;
  return [
    lineOf(mussels, change, change, {
      of: 'undetected',
      key: 'undetected',
      assumed: `Every ${term('cluster')} can be detected by at least one observer`,
      otherwise: `if ${formatPercent(undetected)} of the ${terms('cluster')} can be detected by neither ${term('observer')}`,
      how: 'Buried, under dense plants, in crevices: what hides from both observers alike leaves no trace in their sheets. The total is divided by the share that can be detected.',
    }),
  ];
}

/** Planted shells that are in no number yet, or those that are, left out. */
function plantedLine({ result, mussels }: Input): WhatIfLine[] {
  const shells = result.estimate.detection?.planted_shells ?? null;
  if (shells === null) return [];
  const { from, to, ...words } = withoutPlanted(shells, result.analysis.interval);
  return [lineOf(mussels, from, to, { of: 'planted', key: 'planted', ...words })];
}

/** Differences between clusters up to the largest that could be computed. */
function alikeLine({ result, mussels }: Input): WhatIfLine[] {
  const known = (result.estimate.sensitivity?.heterogeneity ?? []).flatMap((h) =>
    h.mussels === null ? [] : [{ sd: h.sd_logit, change: h.mussels / mussels.estimate - 1 }],
  );
  const last = known.at(-1);
  if (last === undefined) return [];
  return [
    lineOf(mussels, 0, last.change, {
      of: 'alike',
      key: 'alike',
      assumed: `All ${terms('cluster')} of one habitat and size are as easy to detect`,
      otherwise: `if some ${terms('cluster')} are harder to detect than others, by a standard deviation of up to ${last.sd} of the logit of detection`,
      how: `What one observer overlooks the other then overlooks too, so that both look better than they are. With ${known.map((k) => `${k.sd}: ${changeText(k.change, decimalsOf(k.change))}`).join('; ')}. With 1, where an average ${term('cluster')} is detected 80 times of 100, one in six is detected fewer than 60 times.`,
    }),
  ];
}

function unsurveyedLine({ result, mussels, units }: Input): WhatIfLine[] {
  const { abundance, outside } = result.estimate;
  if (abundance === null) return [];
  const parts = [
    ...(outside ?? []).map((o) => ({ reason: o.reason, areaM2: o.area_m2 })),
    { reason: 'unmapped', areaM2: abundance.unmapped_area_m2 },
  ].filter((part) => part.areaM2 > 0);
  if (parts.length === 0) return [];
  const areaM2 = parts.reduce((sum, part) => sum + part.areaM2, 0);
  const each = parts.map((p) => `${exclusionWords(p.reason)} ${formatArea(p.areaM2, units)}`);
  return [
    lineOf(mussels, 0, areaM2 / abundance.area_m2, {
      of: 'unsurveyed',
      key: 'unsurveyed',
      assumed: `Only the ${term('surveyedHabitat')} is counted`,
      otherwise: `if the other ${formatArea(areaM2, units)} of the lake hold from none to as many per m² as the ${term('surveyedHabitat')}`,
      how: `Then for the whole lake: ${each.join('; ')}. Nobody has searched there, so it could also be more.`,
    }),
  ];
}

/** Where observers recorded other substrates than the map has under them. */
function recordedLine({ result, mussels }: Input): WhatIfLine[] {
  const { sensitivity } = result.estimate;
  const interpolated = result.estimate.interpolated_substrate ?? null;
  const records = sensitivity?.recorded_substrates ?? null;
  if (records === null || records.mussels === null) return [];
  const change = records.mussels.estimate / mussels.estimate - 1;
  const { interval } = quantity(records.mussels);
  const apart = records.stretches
    .filter((s) => s.recorded !== s.mapped)
    .sort((a, b) => b.length_m - a.length_m)
    .slice(0, MOST_APART)
    .map((s) => `${s.recorded} on mapped ${s.mapped} ${s.length_m.toFixed(0)} m`);
  const how = [
    `${records.compared_m.toFixed(0)} m of ${terms('transect')} lie away from the borders of the map${apart.length === 0 ? '' : `; most often apart: ${apart.join('; ')}`}.`,
    'The mapped bed is shared out by these lengths.',
    ...(interval === null
      ? []
      : [`${ciName(result.analysis.interval)}, with the error of the lengths: ${interval}.`]),
    ...(interpolated === null
      ? []
      : [
          `The map was made from samples: where what was recorded along the ${terms('transect')} was among them, that the two agree says nothing of the map.`,
        ]),
  ];
  return [
    lineOf(mussels, change, change, {
      of: 'recorded',
      key: 'recorded',
      assumed: `The map has the ${term('substrate')} that observers find`,
      otherwise: `if each mapped ${term('substrate')} holds what was recorded on it, which is the same on ${formatPercent(records.agreement)} of the length`,
      how: how.join(' '),
    }),
  ];
}

function borderLine({ result, mussels, units }: Input): WhatIfLine[] {
  const borders = result.whatIf?.borders ?? null;
  if (borders === null) return [];
  const { cellM, areaM2, fewer, more } = borders;
  return [
    lineOf(mussels, -fewer / mussels.estimate, more / mussels.estimate, {
      of: 'borders',
      key: 'borders',
      assumed: 'The map has the right habitat on both sides of every border',
      otherwise: `if all borders lie one to two grid cells (${cellM} to ${2 * cellM} m) off, to either side`,
      how: `${formatArea(areaM2, units)} lie so near to a border. There each spot takes the ${term('density')} of the sparsest (densest) habitat within a cell, at its own depth. Errors that go both ways cancel in part.`,
    }),
  ];
}

function transectLine({ result, mussels }: Input): WhatIfLine[] {
  const first = readInfluence(result, 1)?.shown[0];
  if (first === undefined) return [];
  return [
    lineOf(mussels, first.change, first.change, {
      of: 'transect',
      key: 'transect',
      assumed: 'No single transect decides the number',
      otherwise: `if ${term('transect')} ${first.transect} had not been dived`,
      how: 'It is the one without which the total changes most; all others change it less.',
    }),
  ];
}

function modelLines({ result, mussels, units: _ }: Input): WhatIfLine[] {
  const nameOf = modelNamer(result.models);
  return (result.whatIf?.models ?? []).map((m) => {
    const change = m.mussels.estimate / mussels.estimate - 1;
    const { interval } = quantity(m.mussels);
    return lineOf(mussels, change, change, {
      of: 'model',
      key: `model ${m.family} ${m.transectEffect} ${m.shape} ${m.depth} ${m.depthDf} ${m.shorePairs ?? 0}`,
      assumed: 'The model used is the right one of those compared',
      otherwise: `if ${nameOf(m)} is the right model`,
      how: `${deltaWords(m)}.${interval === null ? '' : ` Its own ${ciName(result.analysis.interval)}: ${interval}.`}`,
    });
  });
}

/** `ΔAICc 1.3`; below 0 where the random effect was kept against a lower AICc. */
function deltaWords({ delta }: OtherModel): string {
  return `${term('deltaAicc')} ${delta.toFixed(1).replace('-', '−')}, against the model used`;
}

function lineOf(
  { estimate, lower, upper, se }: Input['mussels'],
  from: number,
  to: number,
  words: Pick<WhatIfLine, 'of' | 'key' | 'assumed' | 'otherwise' | 'how'>,
): WhatIfLine {
  const step = roundingStep({ estimate, lower, upper, se });
  const show = (change: number): string => formatToStep(estimate * (1 + change), step);
  const [least, most] = [show(from), show(to)];
  return {
    ...words,
    total: least === most ? least : `${least} to ${most}`,
    change: changeOf(from, to),
    from,
    to,
  };
}

/** `+11 %`, `−6 % to +8 %` */
function changeOf(from: number, to: number): string {
  const [least, most] = [from, to].map((x) => changeText(x, decimalsOf(x)));
  return least === most ? least : `${least} to ${most}`;
}

function decimalsOf(change: number): number {
  return Math.abs(change) < 0.0995 ? 1 : 0;
}

function missingLines({ whatIf, checks }: WhatIfResult): string[] {
  const missing: string[] = [];
  if (whatIf === null) return missing;
  if (whatIf.models.length === 0)
    missing.push('No other model that was fitted comes within 10 of the AICc of the one used.');
  if (whatIf.borders === null)
    missing.push(`No two mapped habitats meet in the ${term('surveyedHabitat')}.`);
  if (checks === null || checks.influence.every((change) => change === null))
    missing.push('What the total would be without a transect was not computed.');
  return missing;
}
