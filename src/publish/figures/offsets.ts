/**
 * Offsets from the rope on distance transects: how many clusters were found in each class, how many the model expects
 * there, and the fitted curve by which sight falls off.
 */

import { gAt } from '../../../models/detection/shapes.ts';
import { GREATEST_B } from '../../../models/runaway.ts';
import type { Coefficient, Shape } from '../../../shared/estimate.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { formatDigits, formatPercent } from '../../../shared/units.ts';
import { plain } from '../../../shared/words.ts';
import { type Html, html } from '../html.ts';
import {
  type Box,
  bottomAxis,
  INK,
  leftAxis,
  linear,
  mark,
  outline,
  picture,
  place,
  roundSteps,
  tickLabel,
  WIDTH,
} from './frame.ts';

const BOX: Box = { left: 54, right: WIDTH - 52, top: 28, bottom: 216 };
const LEGEND_Y = BOX.bottom + 62;
const POINTS = 80;

export type OffsetView = Pick<SurveyResult, 'estimate' | 'survey'>;

/** An SVG element; null without distance transects. */
export function offsetFigure({ estimate, survey }: OffsetView): Html | null {
  const rows = estimate.checks.by_offset;
  if (rows.length === 0) return null;
  const widthM = onlyHalfWidth(survey);
  const top = Math.max(...rows.map((r) => Math.max(r.observed, r.expected)), 1);
  const curve = widthM === null ? null : fittedCurve(estimate, widthM);
  const total = rows.reduce((sum, r) => sum + r.expected, 0);
  // the curve has the area of the expected bars, so that it can be held against them
  const atRope = curve === null ? 0 : total / rows.length / curve.mean;
  const steps = roundSteps(0, Math.max(top, atRope), 4);
  const y = linear(0, steps.at(-1)!, BOX.bottom, BOX.top);
  const end = widthM ?? 1;
  const x = linear(0, end, BOX.left, BOX.right);
  const edges = rows.map((_, i) => (end * i) / rows.length).concat(end);
  return picture(
    'offsets',
    LEGEND_Y + (curve === null ? 12 : 34),
    'Clusters found by their offset from the rope',
    `${rows.map((r) => `${r.label}: ${r.observed} found, ${formatDigits(r.expected, 3)} expected`).join('; ')}.`,
    html`${leftAxis(
      BOX,
      steps.map((s) => ({ at: y(s), label: tickLabel(s) })),
      'clusters found',
      true,
    )}
${rows.map((r, i) => html`<rect class="found" x="${x(edges[i]!)}" y="${y(r.observed)}" width="${place(x(edges[i + 1]!) - x(edges[i]!))}" height="${place(BOX.bottom - y(r.observed))}" fill="${INK.water}" stroke="${INK.quiet}"/>`)}
${bottomAxis(
  BOX,
  edges.map((e) => ({
    at: x(e),
    label: widthM === null ? formatPercent(e) : plain(Number(e.toFixed(3))),
  })),
  widthM === null ? 'share of the half width searched' : 'metres from the rope',
  false,
)}
${outline(BOX)}
${curve === null ? null : curveLine(curve.g, end, atRope, x, y)}
${rows.map((r, i) => mark(3, place((x(edges[i]!) + x(edges[i + 1]!)) / 2), y(r.expected), false))}
${legend(curve !== null)}`,
  );
}

/** What belongs under the figure besides its check. */
export function offsetCaption({ estimate, survey }: OffsetView, independence: 'full' | 'point') {
  const shape = estimate.detection?.shape ?? null;
  if (onlyHalfWidth(survey) === null)
    return 'Transects differ in width, so offsets are shares of it and no one curve can be drawn.';
  const whose =
    independence === 'point' ? 'the divers of a transect see together' : 'one diver sees';
  const name =
    shape !== null && estimate.coefficients.every((c) => c.term !== 'log_sigma')
      ? 'flat: sight does not fall off within the strip'
      : shape;
  return `The curve (${name}) is what ${whose} at each offset, as a share of what is seen at the rope; its height is set by the expected counts.`;
}

/** The half width of all distance transects, m; null when they differ. */
function onlyHalfWidth(survey: SurveyResult['survey']): number | null {
  const widths = new Set(
    survey.transects.filter((t) => t.design === 'distance').map((t) => t.widthM / 2),
  );
  return widths.size === 1 ? [...widths][0]! : null;
}

/** g of the offset, and its mean over the strip by the trapezium rule; null without a shape. */
function fittedCurve(
  { coefficients, detection }: SurveyResult['estimate'],
  widthM: number,
): { g: (offsetM: number) => number; mean: number } | null {
  if (detection === null || detection.shape === null) return null;
  const g = sightAt(detection.shape, coefficients);
  const values = Array.from({ length: POINTS + 1 }, (_, i) => g((widthM * i) / POINTS));
  const inner = values.slice(1, -1).reduce((a, b) => a + b, 0);
  return { g, mean: (inner + (values[0]! + values.at(-1)!) / 2) / POINTS };
}

/** Sight at an offset against sight at the rope; flat where σ left the model, a step where b did (method: boundaries). */
export function sightAt(shape: Shape, coefficients: Coefficient[]): (offsetM: number) => number {
  const value = (term: string) =>
    coefficients.find((c) => c.part === 'shape' && c.term === term)?.estimate ?? null;
  const logSigma = value('log_sigma');
  const name = logSigma === null ? 'flat' : shape;
  const logB = value('log_b') ?? Math.log(GREATEST_B);
  return (offsetM) => gAt(name, offsetM, logSigma ?? 0, logB);
}

function curveLine(
  g: (offsetM: number) => number,
  widthM: number,
  atRope: number,
  x: (offsetM: number) => number,
  y: (clusters: number) => number,
): Html {
  const points = Array.from({ length: POINTS + 1 }, (_, i) => (widthM * i) / POINTS).map(
    (m) => `${x(m)},${y(atRope * g(m))}`,
  );
  const shares = [0, 0.5, 1].map(
    (s) =>
      html`<line x1="${BOX.right}" x2="${BOX.right + 4}" y1="${y(atRope * s)}" y2="${y(atRope * s)}" stroke="${INK.quiet}"/><text x="${BOX.right + 7}" y="${place(y(atRope * s) + 5)}">${formatPercent(s)}</text>`,
  );
  return html`<polyline points="${points.join(' ')}" fill="none" stroke="${INK.text}" stroke-width="2"/><g fill="${INK.quiet}">${shares}<text x="${WIDTH - 4}" y="${BOX.top - 10}" text-anchor="end">of sight at the rope</text></g>`;
}

function legend(withCurve: boolean): Html {
  const y = LEGEND_Y;
  const x = BOX.left;
  return html`<rect x="${x}" y="${y - 7}" width="22" height="12" fill="${INK.water}" stroke="${INK.quiet}"/><text x="${x + 30}" y="${y + 4}">found</text>${mark(3, x + 106, y - 1, false)}<text x="${x + 122}" y="${y + 4}">expected</text>${
    withCurve
      ? html`<line x1="${x}" x2="${x + 22}" y1="${y + 21}" y2="${y + 21}" stroke="${INK.text}" stroke-width="2"/><text x="${x + 30}" y="${y + 26}">fitted fall of sight (right axis)</text>`
      : null
  }`;
}
