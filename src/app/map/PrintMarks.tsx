/** Scale and north on the printed map. They are drawn in the map's own pixels, for paper has the map in another size. */

import type { Units } from '../contract.ts';
import { metresPerPixel, scaleBar } from './scale.ts';

/** The printed map is so large, at most: 182 by 128 mm at 96 px an inch. */
const PAPER_PX = { width: 688, height: 484 };
const LETTERS_PX = 13;
const SCALE_MOST_PX = 150;

export function PrintMarks({
  size: { width, height },
  zoom,
  lat,
  units,
}: {
  size: { width: number; height: number };
  zoom: number;
  lat: number;
  units: Units;
}) {
  // nothing to draw in while files are brought in
  if (width === 0 || height === 0) return null;
  // of the map to one of paper
  const px = Math.max(width / PAPER_PX.width, height / PAPER_PX.height);
  const bar = scaleBar(metresPerPixel(zoom, lat), SCALE_MOST_PX * px, units);
  return (
    <svg
      className="map-print-marks"
      viewBox={`0 0 ${width} ${height}`}
      fontSize={LETTERS_PX * px}
      aria-hidden="true"
    >
      <g transform={`translate(${12 * px},${height - 14 * px}) scale(${px})`}>
        <path
          d={`M0 -6V0H${bar.px / px}V-6`}
          fill="none"
          stroke="#fff"
          strokeWidth="5"
          strokeOpacity="0.8"
        />
        <path d={`M0 -6V0H${bar.px / px}V-6`} fill="none" stroke="#000" strokeWidth="1.5" />
        <text y="-10" fontSize={LETTERS_PX} className="under">
          {bar.label}
        </text>
      </g>
      <g transform={`translate(${width - 22 * px},${48 * px}) scale(${px})`}>
        <path d="M0 -26L7 0L0 -5L-7 0Z" stroke="#fff" strokeWidth="1" />
        <text y="14" fontSize={LETTERS_PX} textAnchor="middle" className="under">
          N
        </text>
      </g>
    </svg>
  );
}
