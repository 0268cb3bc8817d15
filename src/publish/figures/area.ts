/** Areas on their lake as SVG, with scale and north. */

import type { AreaPicture, AreaShape } from '../../present/area-picture.ts';
import { type Html, html } from '../html.ts';

const SHORE = '#55616e';
const WATER = '#eef3f5';
const AREA = '#8a4b00';

export function areaFigure({
  width,
  height,
  shore,
  areas,
  scale,
  scalePx,
  northDeg,
  alt,
}: AreaPicture): Html {
  const below = height + 30;
  const y = height + 16;
  return html`<figure><svg viewBox="0 0 ${width} ${below}" role="img" aria-label="${alt}" font-size="13">
<path d="${path(shore)}" fill="${WATER}" stroke="${SHORE}" stroke-width="1" fill-rule="evenodd"/>
${areas.map(shape)}${areas.map(name)}
<path d="M14 ${y - 4}V${y}H${(14 + scalePx).toFixed(1)}V${y - 4}" fill="none" stroke="#1c2733"/>
<text x="${(20 + scalePx).toFixed(1)}" y="${y + 2}" fill="#1c2733">${scale.label}</text>
<g transform="rotate(${northDeg.toFixed(2)} ${width - 22} ${y})"><path d="M${width - 22} ${y - 12}l6 20l-6 -4l-6 4Z" fill="#1c2733"/></g>
<text x="${width - 34}" y="${y + 4}" text-anchor="end" fill="#1c2733">North</text>
</svg></figure>`;
}

const shape = ({ rings, strong }: AreaShape): Html =>
  html`<path d="${path(rings)}" fill="${AREA}" fill-opacity="${strong ? 0.35 : 0}" stroke="${AREA}" stroke-width="1.5" fill-rule="evenodd"${strong ? null : html` stroke-dasharray="5 3"`}/>`;

/** On a pale edge, so that it can be read on a line. */
const name = ({ name: said, strong }: AreaShape): Html | null =>
  said &&
  html`<text x="${said.at[0].toFixed(1)}" y="${(said.at[1] + 4).toFixed(1)}" text-anchor="middle" fill="#1c2733" stroke="#fff" stroke-width="3" paint-order="stroke"${strong ? html` font-weight="600"` : null}>${said.text}</text>`;

function path(rings: AreaShape['rings']): string {
  return rings
    .map((ring) => `M${ring.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`)
    .join('');
}
