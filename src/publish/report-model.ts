/** The report's tables of the model: detection, models compared, coefficients. */

import type { Estimate, Quantity } from '../../shared/estimate.ts';
import { capital, gloss, label, term } from '../../shared/glossary.ts';
import { formatPercent } from '../../shared/units.ts';
import {
  type FittedResult,
  logScoreSentence,
  type ModelComparison,
  modelSentence,
  readCoefficients,
  readModels,
} from '../present/models.ts';
import { type Html, html } from './html.ts';
import { NONE, table } from './report-table.ts';

type Pair = NonNullable<Estimate['detection']>['pairs'][number];

const NO_BREAK_HYPHEN = '\u2011';

/** What each diver and each pair sees; or why that is not known. */
export function detectionTables({ detection }: Estimate, interval: number): Html {
  if (detection === null)
    return html`<p>Nothing was found, so nothing can be said about what divers see; the limits take it that they see everything.</p>`;
  const fixed =
    detection.fixed === null
      ? null
      : html`<p>Where nobody searched after the first diver, his share is taken as 1: the densities there are of detectable clusters.</p>`;
  const divers = table(
    `Share of the clusters in the path that a diver sees, with ${formatPercent(interval)} intervals`,
    [
      { name: 'Diver' },
      { name: 'Design' },
      { name: 'Sees', number: true },
      { name: 'interval', number: true },
    ],
    detection.observers.map((o) => ({
      cells: [o.observer, o.design, ...shareCells({ ...o, estimate: o.p, cv: null })],
    })),
  );
  const pairs = table(
    'Share that two divers see together, whoever goes first',
    [
      { name: 'Divers' },
      { name: 'Design' },
      { name: 'See', number: true },
      { name: 'interval', number: true },
    ],
    pairsOnce(detection.pairs).map((p) => ({
      cells: [
        `${p.primary} and ${p.secondary}`,
        p.design,
        ...shareCells({ ...p, estimate: p.p, cv: null }),
      ],
    })),
  );
  return html`${fixed}${divers}${pairs}<p>Over all that was searched, ${formatPercent(Number(detection.mean_p.toFixed(2)))} of the clusters were found${
    detection.shape === null
      ? ''
      : `; with distance from the rope, sight falls off as a ${detection.shape} curve`
  }.</p>`;
}

/** 1 − (1 − pᵢ)(1 − pⱼ) is the same in both orders. */
function pairsOnce(pairs: Pair[]): Pair[] {
  return pairs.filter(
    (p, i) =>
      !pairs
        .slice(0, i)
        .some(
          (q) => q.design === p.design && q.primary === p.secondary && q.secondary === p.primary,
        ),
  );
}

function shareCells(q: Quantity): [string, string] {
  const share = (x: number) => formatPercent(Number(x.toFixed(2)));
  return [
    share(q.estimate),
    q.lower === null || q.upper === null ? NONE : `${share(q.lower)} to ${share(q.upper)}`,
  ];
}

/** The model used in words, those it was compared with, and its coefficients. */
export function modelTables(result: FittedResult): Html {
  const compared = readModels(result);
  const coefficients = table(
    'Coefficients (log scale for density and size, logit for detection)',
    [
      { name: 'Part' },
      { name: 'Term' },
      { name: 'Estimate', number: true },
      { name: label('standardError'), number: true },
    ],
    readCoefficients(result).map((c) => ({ cells: [c.part, c.term, c.estimate, c.se] })),
  );
  const score = logScoreSentence(result);
  return html`<p>${modelSentence(result)}</p>${compared && comparison(compared)}${coefficients}${score === null ? null : html`<p>${score}</p>`}`;
}

function comparison({ lines, withShapes, kept, notes }: ModelComparison): Html {
  const models = table(
    'Models compared, the lowest AICc first; in bold the one used',
    [
      { name: label('countDistribution') },
      { name: label('transectEffect') },
      ...(withShapes ? [{ name: label('detectionFunction') }] : []),
      { name: label('logLikelihood'), number: true },
      { name: 'Parameters', number: true },
      { name: label('deltaAicc'), number: true },
      { name: label('akaikeWeight'), number: true },
    ],
    lines.map((m) => ({
      sum: m.used,
      cells: [
        m.countDistribution,
        m.transectEffect,
        ...(withShapes ? [m.detectionFunction.replace('-', NO_BREAK_HYPHEN)] : []),
        m.logLikelihood,
        m.parameters,
        m.delta,
        m.weight,
      ],
    })),
  );
  return html`${models}<p class="note">${capital(term('deltaAicc'))}: ${gloss('deltaAicc')}. ${label('akaikeWeight')}: ${gloss('akaikeWeight')}.</p>${notes.length === 0 ? null : html`<ul>${notes.map((note) => html`<li>${note}.</li>`)}</ul>`}${kept === null ? null : html`<p>${kept}</p>`}`;
}
