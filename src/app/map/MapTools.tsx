/** Buttons and the scale bar on the map. */

import type { Units } from '../contract.ts';
import { metresPerPixel, scaleBar } from './scale.ts';

export function MapTools({
  onZoom,
  onFit,
  canFit,
}: {
  onZoom(steps: 1 | -1): void;
  onFit(): void;
  canFit: boolean;
}) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: three buttons are no form
    <div className="map-tools no-print" role="group" aria-label="Map view">
      <button type="button" onClick={() => onZoom(1)} aria-label="Zoom in" title="Zoom in">
        <Glyph d="M8 3v10M3 8h10" />
      </button>
      <button type="button" onClick={() => onZoom(-1)} aria-label="Zoom out" title="Zoom out">
        <Glyph d="M3 8h10" />
      </button>
      <button
        type="button"
        onClick={onFit}
        disabled={!canFit}
        aria-label="Show the whole lake"
        title="Show the whole lake"
      >
        <Glyph d="M2.5 6V2.5H6M10 2.5h3.5V6M13.5 10v3.5H10M6 13.5H2.5V10" />
      </button>
    </div>
  );
}

function Glyph({ d }: { d: string }) {
  return (
    <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
      <path d={d} fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinecap="round" />
    </svg>
  );
}

const SCALE_MOST_PX = 120;

export function ScaleBar({ zoom, lat, units }: { zoom: number; lat: number; units: Units }) {
  const { px, label } = scaleBar(metresPerPixel(zoom, lat), SCALE_MOST_PX, units);
  return (
    <div className="map-scale">
      <span>{label}</span>
      <div style={{ width: `${px}px` }} />
    </div>
  );
}
