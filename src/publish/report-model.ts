/** The report's tables of the model: detection, models compared, coefficients, observed against expected. */

import type { Estimate, ObservedExpected, Quantity } from '../../shared/estimate.ts';
import { formatCount, formatDigits, formatPercent } from '../../shared/units.ts';
import { type Html, html } from './html.ts';
import { familyWords, termWords } from './model-words.ts';
import { NONE, quantityCells, table } from './report-table.ts';

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
    'Share that two divers see together',
    [{ name: 'First' }, { name: 'Second' }, { name: 'Design' }, { name: 'See', number: true }],
    detection.pairs.map((p) => ({
      cells: [p.primary, p.secondary, p.design, formatPercent(Number(p.p.toFixed(2)))],
    })),
  );
  return html`${fixed}${divers}${pairs}<p>Over all that was searched, ${formatPercent(Number(detection.mean_p.toFixed(2)))} of the clusters were found${
    detection.shape === null
      ? ''
      : `; with distance from the rope, sight falls off as a ${detection.shape} curve`
  }.</p>`;
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
  const chosen = estimate.models.find(
    (m) =>
      m.family === model.family &&
      m.transect_effect === model.transect_effect &&
      m.log_likelihood === model.log_likelihood,
  );
  const compared = table(
    'Models compared (lower AICc is better); in bold the one used',
    [
      { name: 'Counts' },
      { name: 'Transect effect' },
      { name: 'Sight' },
      { name: 'log-likelihood', number: true },
      { name: 'Parameters', number: true },
      { name: 'AICc', number: true },
      { name: 'Remarks' },
    ],
    estimate.models.map((m) => ({
      sum: m === chosen,
      cells: [
        m.family,
        m.transect_effect ? 'yes' : 'no',
        (m.shape ?? NONE).replace('-', NO_BREAK_HYPHEN),
        m.log_likelihood === null ? NONE : signed(m.log_likelihood, 2),
        m.parameters === null ? NONE : String(m.parameters),
        m.aicc === null ? NONE : signed(m.aicc, 2),
        m.boundary ?? '',
      ],
    })),
  );
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
  return html`<p>Clusters on each stretch of rope follow a ${familyWords(model.family)} model${model.transect_effect ? ' with a transect effect' : ''} with density by ${termWords(model.density_terms)} and detection by ${termWords(model.detection_terms)}. ${designBased(estimate)}</p>${compared}${coefficients}`;
}

function designBased({ design_based }: Estimate): string {
  const [estimate, interval] = quantityCells(design_based.clusters_per_m2);
  if (estimate === NONE) return '';
  return `Without any habitat model the transects give ${estimate} clusters per m²${interval === NONE ? '' : ` (${interval})`}.`;
}

function signed(x: number, decimals: number): string {
  return x.toFixed(decimals).replace('-', '−');
}

/** Counts against what the model expects, class by class. */
export function observedTables({ checks }: Estimate): Html {
  const groups: [string, ObservedExpected[]][] = [
    ['diver and pass', checks.by_diver],
    ['offset from the rope', checks.by_offset],
    ['substrate', checks.by_substrate],
    ['depth', checks.by_depth],
  ];
  const numbers = [
    ['Pearson dispersion', checks.pearson_dispersion],
    ['log score by transect', checks.log_score],
    ["Moran's I of transects", checks.moran_i],
    ['its p-value', checks.moran_p],
  ] as const;
  const known = numbers.filter(([, value]) => value !== null);
  return html`${groups.map(([name, rows]) =>
    table(
      `Clusters found and expected, by ${name}`,
      [{ name: 'Class' }, { name: 'Found', number: true }, { name: 'Expected', number: true }],
      rows.map((r) => ({ cells: [r.label, formatCount(r.observed), formatDigits(r.expected, 3)] })),
    ),
  )}${
    known.length === 0
      ? null
      : html`<p>${known.map(([name, value]) => `${name} ${formatDigits(value!, 3)}`).join('; ')}.</p>`
  }`;
}
