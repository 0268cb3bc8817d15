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
        {/* a shore, not the corners of a screen */}
        <Glyph d="M2 8.6C2 5.4 4.6 4.2 7.2 4.4c2 .1 3-1.2 4.9-.6 2.2.7 2.7 4.2 1.3 5.9-1.2 1.5-3.3.9-4.9 2-2.2 1.6-6.5.4-6.5-3.1Z" />
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
