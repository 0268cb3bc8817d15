/** Small cards on the map: what the bed holds at a spot, a treatment area with its numbers, which transect is pointed at. */

import './cards.css';
import type { ReactNode } from 'react';
import type { SpotWords } from '../../present/spot.ts';
import type { TreatmentCard as AreaWords } from '../../present/treatments.ts';
import { type Box, cardPlace, type Pixel, type Size } from './card-place.ts';

/** A card above its place reaches so far below it (cards.css). */
const LEAN_PX = 14;

/** A card beside a pixel of the map, where there is room that the legend does not take. */
function Card({
  at,
  size,
  legend,
  onClose,
  children,
}: {
  at: Pixel;
  size: Size;
  legend: Box | null;
  /** the card was pinned, and can be let go of */
  onClose?: (() => void) | undefined;
  children: ReactNode;
}) {
  const { toLeft, above, shift } = cardPlace(
    at,
    size,
    legend && { ...legend, top: legend.top - LEAN_PX },
  );
  const names = [
    'map-card',
    toLeft ? 'to-left' : 'to-right',
    above ? 'above' : 'below',
    onClose ? 'pinned' : '',
  ];
  return (
    <div
      className={names.join(' ')}
      style={{ translate: `${at.x + shift.x}px ${at.y + shift.y}px` }}
    >
      <div className="map-card-body">
        {onClose && (
          <button type="button" className="map-card-close" onClick={onClose} aria-label="Close">
            <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
              <path d="M2 2l8 8M10 2l-8 8" fill="none" stroke="currentColor" strokeWidth="1.6" />
            </svg>
          </button>
        )}
        {children}
      </div>
    </div>
  );
}

/** A spot, within a treatment area or not; or an area alone, chosen in its table. */
export function PlaceCard({
  at,
  size,
  legend,
  spot,
  area,
  onClose,
}: {
  at: Pixel;
  size: Size;
  legend: Box | null;
  spot: SpotWords | null;
  area: AreaWords | null;
  onClose?: (() => void) | undefined;
}) {
  return (
    <Card at={at} size={size} legend={legend} onClose={onClose}>
      {area !== null && (
        <div className="map-card-area">
          <p className="map-card-title">{area.title}</p>
          {area.lines.map((line, i) => (
            <p key={line} className={i === 0 ? '' : 'map-card-bed'}>
              {line}
            </p>
          ))}
        </div>
      )}
      {spot !== null && <SpotLines words={spot} />}
    </Card>
  );
}

function SpotLines({ words: { bed, density, interval, why } }: { words: SpotWords }) {
  return (
    <>
      {bed !== '' && <p className="map-card-bed">{bed}</p>}
      {density !== null && (
        <p>
          <b className="map-card-number">{density}</b>
          {interval !== null && <span className="map-card-interval"> ({interval})</span>}
        </p>
      )}
      {why !== null && <p className="map-card-why">{why}</p>}
    </>
  );
}

export function TransectCard({
  at,
  size,
  legend,
  title,
  lines,
}: {
  at: Pixel;
  size: Size;
  legend: Box | null;
  title: string;
  lines: readonly string[];
}) {
  return (
    <Card at={at} size={size} legend={legend}>
      <p className="map-card-title">{title}</p>
      {lines.map((line) => (
        <p key={line} className="map-card-bed">
          {line}
        </p>
      ))}
    </Card>
  );
}
