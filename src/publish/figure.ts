/**
 * Density against depth as one drawing: depth runs down, density on a log axis, a line a substrate told apart by its
 * style, its interval as a band, what nobody sampled hatched.
 */

import type { DensityCurve } from '../../shared/result.ts';
import type { Domain } from '../../shared/survey.ts';
import { type Html, html } from './html.ts';

/** Dash patterns in the order in which curves come; with more curves than patterns the lines get thicker. */
const DASHES = ['', '7 4', '2 3', '12 3 2 3', '14 5', '7 3 2 3 2 3', '1 5'];
const INK = { line: '#0f5f6b', text: '#1c2733', quiet: '#55616e', rule: '#d9d4c7' };

const WIDTH = 640;
const HEIGHT = 360;
const PLOT = { left: 52, right: 500, top: 16, bottom: 312 };
const LEGEND_X = 516;
/** Bands may widen the axis by this many decades beyond the curves; a wilder band runs off the edge. */
const BAND_DECADES = 1;
/** An axis of more decades than this would press all that matters into a corner. */
const MAX_DECADES = 8;

interface Scales {
  x: (density: number) => number;
  y: (depthM: number) => number;
  decades: number[];
  depthMarksM: number[];
  bottomM: number;
}

/** An SVG element of about 640 × 360; null when no curve has a density above 0. */
export function densityFigure(curves: DensityCurve[], domain: Domain): Html | null {
  const drawn = curves.filter((c) => c.musselsPerM2.some((d) => d > 0));
  if (drawn.length === 0) return null;
  const scales = scalesFor(drawn, domain);
  return html`<svg class="figure" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="fig-title fig-desc">
<title id="fig-title">Density of mussels against depth, by substrate</title>
<desc id="fig-desc">${described(drawn)}</desc>
<defs>
<pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" stroke="${INK.rule}" stroke-width="2"/></pattern>
<clipPath id="plot"><rect x="${PLOT.left}" y="${PLOT.top}" width="${PLOT.right - PLOT.left}" height="${PLOT.bottom - PLOT.top}"/></clipPath>
</defs>
${hatched(scales, domain)}
${axes(scales)}
<g clip-path="url(#plot)">
${drawn.map((curve) => band(curve, scales))}
${drawn.map((curve, i) => line(curve, scales, i))}
</g>
${drawn.map((curve, i) => legendRow(curve, i))}
</svg>`;
}

function scalesFor(curves: DensityCurve[], domain: Domain): Scales {
  const positive = (values: number[]) => values.filter((v) => v > 0 && Number.isFinite(v));
  const centre = curves.flatMap((c) => positive(c.musselsPerM2)).map(Math.log10);
  const edges = curves.flatMap((c) => [...positive(c.lower), ...positive(c.upper)]).map(Math.log10);
  const least = Math.min(...centre);
  const most = Math.max(...centre);
  let from = Math.floor(Math.max(Math.min(least, ...edges), least - BAND_DECADES) + 1e-9);
  let to = Math.ceil(Math.min(Math.max(most, ...edges), most + BAND_DECADES) - 1e-9);
  to = Math.max(to, from + 1);
  from = Math.max(from, to - MAX_DECADES);

  const bottomM = Math.max(1, Math.ceil(domain.depthToM + 0.5));
  const stepM = [1, 2, 5, 10, 20, 50, 100].find((s) => bottomM / s <= 8) ?? 200;
  const scale = (value: number, low: number, high: number, a: number, b: number) =>
    Number((a + ((value - low) / (high - low)) * (b - a)).toFixed(1));
  return {
    x: (density) => scale(Math.log10(Math.max(density, 1e-300)), from, to, PLOT.left, PLOT.right),
    y: (depthM) => scale(depthM, 0, bottomM, PLOT.top, PLOT.bottom),
    decades: Array.from({ length: to - from + 1 }, (_, i) => from + i),
    depthMarksM: Array.from({ length: Math.floor(bottomM / stepM) + 1 }, (_, i) => i * stepM),
    bottomM,
  };
}

/** Above and below the depths that the survey speaks for. */
function hatched({ y, bottomM }: Scales, domain: Domain): Html[] {
  const strips: [number, number][] = [
    [0, Math.max(0, domain.depthFromM)],
    [Math.min(domain.depthToM, bottomM), bottomM],
  ];
  return strips
    .filter(([from, to]) => to > from)
    .map(
      ([from, to]) =>
        html`<rect x="${PLOT.left}" y="${y(from)}" width="${PLOT.right - PLOT.left}" height="${(y(to) - y(from)).toFixed(1)}" fill="url(#hatch)"/>`,
    );
}

function axes({ x, y, decades, depthMarksM }: Scales): Html {
  const grid = decades.map(
    (d) =>
      html`<line x1="${x(10 ** d)}" x2="${x(10 ** d)}" y1="${PLOT.top}" y2="${PLOT.bottom}" stroke="${INK.rule}"/><text x="${x(10 ** d)}" y="${PLOT.bottom + 18}" text-anchor="middle">${decadeLabel(d)}</text>`,
  );
  const depths = depthMarksM.map(
    (m) =>
      html`<line x1="${PLOT.left - 4}" x2="${PLOT.left}" y1="${y(m)}" y2="${y(m)}" stroke="${INK.quiet}"/><text x="${PLOT.left - 8}" y="${y(m) + 4}" text-anchor="end">${m} m</text>`,
  );
  return html`<g font-size="12" fill="${INK.quiet}">${grid}${depths}<text x="${(PLOT.left + PLOT.right) / 2}" y="${PLOT.bottom + 38}" text-anchor="middle">mussels per m², log scale</text></g>
<rect x="${PLOT.left}" y="${PLOT.top}" width="${PLOT.right - PLOT.left}" height="${PLOT.bottom - PLOT.top}" fill="none" stroke="${INK.rule}"/>`;
}

function decadeLabel(decade: number): string {
  if (decade < 0) return (10 ** decade).toFixed(-decade);
  return (10 ** decade).toLocaleString('en', { maximumFractionDigits: 0 });
}

/** The interval as an area; depths without limits are skipped. */
function band(curve: DensityCurve, { x, y }: Scales): Html {
  const known = curve.depthM
    .map((_, i) => i)
    .filter((i) => curve.upper[i]! > 0 && Number.isFinite(curve.upper[i]!) && curve.lower[i]! >= 0);
  if (known.length < 2) return html``;
  const edge = (values: number[], order: number[]) =>
    order.map((i) => `${x(values[i]!)},${y(curve.depthM[i]!)}`).join(' ');
  return html`<polygon points="${edge(curve.lower, known)} ${edge(curve.upper, known.toReversed())}" fill="${INK.line}" fill-opacity="0.1"/>`;
}

function line(curve: DensityCurve, { x, y }: Scales, index: number): Html {
  const points = curve.depthM
    .map((depthM, i) => [depthM, curve.musselsPerM2[i]!] as const)
    .filter(([, density]) => density > 0)
    .map(([depthM, density]) => `${x(density)},${y(depthM)}`);
  return html`<polyline points="${points.join(' ')}" fill="none" stroke="${INK.line}" ${strokeOf(index)}/>`;
}

function legendRow(curve: DensityCurve, index: number): Html {
  const y = PLOT.top + 14 + index * 22;
  return html`<line x1="${LEGEND_X}" x2="${LEGEND_X + 36}" y1="${y}" y2="${y}" stroke="${INK.line}" ${strokeOf(index)}/><text x="${LEGEND_X + 44}" y="${y + 4}" font-size="12" fill="${INK.text}">${curve.substrate.join('+')}</text>`;
}

function strokeOf(index: number): Html {
  const width = 2 + Math.floor(index / DASHES.length);
  return html`stroke-width="${width}" stroke-dasharray="${DASHES[index % DASHES.length]!}"`;
}

function described(curves: DensityCurve[]): string {
  const names = curves.map((c) => c.substrate.join('+')).join(', ');
  return `Depth runs downwards, density to the right on a logarithmic scale; lines for ${names}, with their intervals as bands. The figures are in the table below.`;
}
