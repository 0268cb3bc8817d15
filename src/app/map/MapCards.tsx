/** Small cards on the map: what the bed holds at a spot, and which transect is pointed at. */

import type { ReactNode } from 'react';
import type { SpotWords } from '../../present/spot.ts';

export interface Pixel {
  x: number;
  y: number;
}

/** A card beside a pixel of the map, on the side where there is room. */
function Card({ at, size, children }: { at: Pixel; size: Size; children: ReactNode }) {
  const left = at.x > size.width - 270;
  const above = at.y > size.height - 130;
  const names = ['map-card', left ? 'to-left' : 'to-right', above ? 'above' : 'below'].join(' ');
  return (
    <div className={names} style={{ translate: `${at.x}px ${at.y}px` }}>
      <div className="map-card-body">{children}</div>
    </div>
  );
}

export interface Size {
  width: number;
  height: number;
}

export function SpotCard({
  at,
  size,
  words: { bed, density, interval, why },
}: {
  at: Pixel;
  size: Size;
  words: SpotWords;
}) {
  return (
    <Card at={at} size={size}>
      {bed !== '' && <p className="map-card-bed">{bed}</p>}
      {density !== null && (
        <p>
          <b className="map-card-number">{density}</b>
          {interval !== null && <span className="map-card-interval"> ({interval})</span>}
        </p>
      )}
      {why !== null && <p className="map-card-why">{why}</p>}
    </Card>
  );
}

export function TransectCard({
  at,
  size,
  title,
  lines,
}: {
  at: Pixel;
  size: Size;
  title: string;
  lines: readonly string[];
}) {
  return (
    <Card at={at} size={size}>
      <p className="map-card-title">{title}</p>
      {lines.map((line) => (
        <p key={line} className="map-card-bed">
          {line}
        </p>
      ))}
    </Card>
  );
}
