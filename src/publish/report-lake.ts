/** The report's tables of the lake: density, strata, treatment areas, and what is not in the number. */

import type { Estimate, Stratum } from '../../shared/estimate.ts';
import type { DensityCurve } from '../../shared/result.ts';
import { formatDepth, formatDigits, formatLandArea, formatPercent } from '../../shared/units.ts';
import { bySubstrate, outsideWords } from './habitat.ts';
import { type Html, html } from './html.ts';
import { NONE, quantityCells, type Row, table } from './report-table.ts';

/** How many depths of a curve are given as figures. */
const DEPTHS_SHOWN = 5;

/** Density at a few depths on each substrate. */
export function densityTable(curves: DensityCurve[]): Html | null {
  const first = curves[0];
  if (first === undefined) return null;
  const columns = [...new Set(pick(first.depthM.length, DEPTHS_SHOWN))];
  return table(
    'Mussels per m² at some depths, with the interval',
    [
      { name: 'Substrate' },
      ...columns.map((i) => ({ name: formatDepth(first.depthM[i]!), number: true })),
    ],
    curves.map((c) => ({
      cells: [
        c.substrate.join('+'),
        ...columns.map((i) => {
          const [estimate, interval] = quantityCells(pointOf(c, i));
          return html`${estimate}${interval === NONE ? null : html`<br><span class="note">${interval}</span>`}`;
        }),
      ],
    })),
  );
}

/** A curve's point as a quantity; limits that are not finite do not exist. */
function pointOf(curve: DensityCurve, i: number) {
  const limit = (x: number | undefined) => (x !== undefined && Number.isFinite(x) ? x : null);
  return {
    estimate: curve.musselsPerM2[i]!,
    se: null,
    cv: null,
    lower: limit(curve.lower[i]),
    upper: limit(curve.upper[i]),
  };
}

/** Substrate by 1 m of depth; a sum line a substrate (without an interval: its bands are not independent). */
export function strataTable(estimate: Estimate, interval: number): Html {
  if (estimate.strata === null || estimate.strata.length === 0)
    return html`<p>${
      estimate.strata === null
        ? 'Without maps of outline, substrate and depth there is no breakdown of the lake.'
        : 'No mapped bed lies within the habitats and depths that were searched.'
    }</p>`;
  const rows = bySubstrate(estimate.strata).flatMap(
    ({ substrate, areaM2, perM2, mussels, strata }): Row[] => [
      {
        sum: true,
        cells: [
          substrate,
          formatLandArea(areaM2),
          perM2 === null ? NONE : formatDigits(perM2, 3),
          '',
          mussels === null ? NONE : formatDigits(mussels, 3),
          '',
        ],
      },
      ...strata.map((s) => ({ cells: stratumCells(s) })),
    ],
  );
  const whole = estimate.abundance;
  if (whole !== null)
    rows.push({
      sum: true,
      cells: ['all', formatLandArea(whole.area_m2), '', '', ...quantityCells(whole.mussels)],
    });
  return table(
    `By substrate and metre of depth, with ${formatPercent(interval)} intervals`,
    [
      { name: 'Bed' },
      { name: 'Area', number: true },
      { name: 'per m²', number: true },
      { name: 'interval', number: true },
      { name: 'Mussels', number: true },
      { name: 'interval', number: true },
    ],
    rows,
  )!;
}

function stratumCells(s: Stratum): (string | Html)[] {
  return [
    `${s.depth_from_m}–${s.depth_to_m} m`,
    formatLandArea(s.area_m2),
    ...quantityCells(s.mussels_per_m2),
    ...quantityCells(s.mussels),
  ];
}

/** Candidate areas side by side. */
export function treatmentTable(estimate: Estimate): Html | null {
  return table(
    'Mussels expected within the part of each area that the survey speaks for',
    [
      { name: 'Area' },
      { name: 'Speaks for', number: true },
      { name: 'Acres', number: true },
      { name: 'Not spoken for', number: true },
      { name: 'Mussels', number: true },
      { name: 'interval', number: true },
    ],
    (estimate.treatments ?? []).map((t) => ({
      cells: [
        t.name,
        formatLandArea(t.area_m2),
        formatLandArea(t.area_m2, 'imperial'),
        formatLandArea(t.outside_area_m2),
        ...quantityCells(t.mussels),
      ],
    })),
  );
}

/** The bed outside of the surveyed domain by reason, and what was never mapped. */
export function outsideTable(estimate: Estimate): Html {
  const { abundance, outside } = estimate;
  if (abundance === null && outside === null)
    return html`<p>Without a map of the lake it cannot be said how much of its bed was not searched.</p>`;
  const rows: Row[] = (outside ?? [])
    .filter((o) => o.area_m2 > 0)
    .map((o) => ({
      cells: [
        outsideWords(o.reason),
        formatLandArea(o.area_m2),
        formatLandArea(o.area_m2, 'imperial'),
      ],
    }));
  if (abundance !== null && abundance.unmapped_area_m2 > 0)
    rows.push({
      cells: [
        'no substrate on the map',
        formatLandArea(abundance.unmapped_area_m2),
        formatLandArea(abundance.unmapped_area_m2, 'imperial'),
      ],
    });
  return (
    table(
      'Bed that the number leaves out; mussels may live there',
      [{ name: 'Why' }, { name: 'Area', number: true }, { name: 'in acres', number: true }],
      rows,
    ) ?? html`<p>All of the mapped bed is in the number.</p>`
  );
}

/** Classes where nothing was found: what density that still allows. */
export function upperLimitTable(estimate: Estimate): Html | null {
  return table(
    'Searched, and nothing found: the density that this still allows',
    [
      { name: 'Class' },
      { name: 'Clusters per m², at most', number: true },
      { name: 'Mussels per m², at most', number: true },
    ],
    estimate.upper_limits.map((u) => ({
      cells: [
        u.class,
        u.clusters_per_m2 === null ? NONE : formatDigits(u.clusters_per_m2, 2),
        u.mussels_per_m2 === null ? NONE : formatDigits(u.mussels_per_m2, 2),
      ],
    })),
  );
}

/** `n` indices spread evenly over 0 … length − 1, both ends included. */
function pick(length: number, n: number): number[] {
  const last = length - 1;
  return Array.from({ length: n }, (_, i) => Math.round((i / (n - 1)) * last));
}
