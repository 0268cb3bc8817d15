/** The report's tables of the model: detection, models compared, coefficients. */

import type { Estimate, Quantity } from '../../shared/estimate.ts';
import { formatDigits, formatPercent } from '../../shared/units.ts';
import {
  boundaryNotes,
  type ComparedModel,
  compareModels,
  keptEffectSentence,
  weightWords,
} from './compared-models.ts';
import { type Html, html } from './html.ts';
import { familyWords, termWords } from './model-words.ts';
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

/** The chosen model in words, those it was compared with, and its coefficients. */
export function modelTables(estimate: Estimate): Html {
  const { model } = estimate;
  const all = compareModels(estimate);
  const compared = table(
    'Models compared, the lowest AICc first; in bold the one used',
    [
      { name: 'Counts' },
      { name: 'Transect effect' },
      { name: 'Sight' },
      { name: 'log-likelihood', number: true },
      { name: 'Parameters', number: true },
      { name: 'AICc above lowest', number: true },
      { name: 'Weight', number: true },
    ],
    all
      .filter((c) => c.sameAs === null)
      .map(({ row, used, delta, weight }) => ({
        sum: used,
        cells: [
          row.family,
          row.transect_effect ? 'yes' : 'no',
          (row.shape ?? NONE).replace('-', NO_BREAK_HYPHEN),
          row.log_likelihood === null ? 'not fitted' : signed(row.log_likelihood, 2),
          row.parameters === null ? NONE : String(row.parameters),
          delta === null ? NONE : delta.toFixed(1),
          weightWords(weight),
        ],
      })),
  );
  const notes = boundaryNotes(all);
  const coefficients = table(
    'Coefficients (log scale for density and size, logit for detection)',
    [
      { name: 'Part' },
      { name: 'Term' },
      { name: 'Estimate', number: true },
      { name: 'Standard error', number: true },
    ],
    estimate.coefficients.map((c) => ({
      cells: [c.part, c.term, signed(c.estimate, 3), c.se === null ? NONE : c.se.toFixed(3)],
    })),
  );
  return html`<p>Clusters on each stretch of rope follow a ${familyWords(model.family)} model${model.transect_effect ? ' with a transect effect' : ''} with density by ${termWords(model.density_terms)} and detection by ${termWords(model.detection_terms)}.</p>${compared}${notes.length === 0 ? null : html`<ul>${notes.map((note) => html`<li>${note}.</li>`)}</ul>`}${keptEffect(all)}${coefficients}${logScore(estimate)}`;
}

function signed(x: number, decimals: number): string {
  return x.toFixed(decimals).replace('-', '−');
}

/** Why the model used need not be the one with the lowest AICc. */
function keptEffect(all: ComparedModel[]): Html | null {
  const sentence = keptEffectSentence(all);
  return sentence === null ? null : html`<p>${sentence}</p>`;
}

function logScore({ checks }: Estimate): Html | null {
  if (checks.log_score === null) return null;
  return html`<p>Log score ${formatDigits(checks.log_score, 5)}: the log-likelihood of each transect under the model fitted without it, summed. It means something only beside that of another model of the same survey: the higher predicts better.</p>`;
}
