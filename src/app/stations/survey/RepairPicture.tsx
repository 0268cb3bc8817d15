/** Before and after as lines: dashed as it stands, solid as it would be; on a small map, or depths along the transect. */

import { useId } from 'react';
import type { RepairPicture as Picture } from '../../../../shared/repairs.ts';
import { formatDepth, formatLength } from '../../../../shared/units.ts';
import { unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';

const WIDTH = 320;
const HEIGHT = 180;
const MARGIN = 14;

type Point = readonly [x: number, y: number];
type Place = (point: Point) => Point;

export function RepairPicture({ picture }: { picture: Picture }) {
  if (picture.kind === 'cells') return null;
  return picture.kind === 'map' ? <OnMap picture={picture} /> : <Along picture={picture} />;
}

function OnMap({ picture }: { picture: Extract<Picture, { kind: 'map' }> }) {
  const { before, after, others, outline } = picture;
  // around what the repair leads to: what lies half a world away is drawn to the frame's edge
  const shown = [...after, ...others, ...(outline ?? [])].flat();
  const place = fitted(shown.length > 0 ? shown : before.flat(), true);
  return (
    <Framed label="Map: dashed as it stands, solid after the repair">
      {outline?.map((ring, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: rings of one picture do not move
        <path key={i} className="repair-lake" d={`${path(ring, place)}Z`} />
      ))}
      <Lines lines={others} place={place} className="repair-other" />
      <Lines lines={before} place={place} className="repair-before" />
      <Lines lines={after} place={place} className="repair-after" />
    </Framed>
  );
}

function Along({ picture }: { picture: Extract<Picture, { kind: 'profile' }> }) {
  const units = unitSystem(useApp().state.units);
  const line = (depths: typeof picture.before): Point[] =>
    depths.map(({ distanceM, depthM }) => [distanceM, -depthM]);
  const [before, after] = [line(picture.before), line(picture.after)];
  const all = [...before, ...after];
  const place = fitted([...all, [0, 0]], false);
  const deepest = all.reduce((most, [, y]) => Math.max(most, -y), 0);
  const farthest = all.reduce((most, [x]) => Math.max(most, x), 0);
  return (
    <Framed label="Depths along the transect: dashed as they stand, solid after the repair">
      <path
        className="repair-lake"
        d={path(
          [
            [0, 0],
            [farthest, 0],
          ],
          place,
        )}
      />
      <Lines lines={[before]} place={place} className="repair-before" />
      <Lines lines={[after]} place={place} className="repair-after" />
      <text x={MARGIN} y={HEIGHT - 2}>
        {formatDepth(deepest, units)}
      </text>
      <text x={WIDTH - MARGIN} y={HEIGHT - 2} textAnchor="end">
        {formatLength(farthest, 3, units)}
      </text>
    </Framed>
  );
}

function Framed({ label, children }: { label: string; children: React.ReactNode }) {
  const id = useId();
  return (
    <svg
      className="repair-picture"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-labelledby={id}
    >
      <title id={id}>{label}</title>
      {children}
    </svg>
  );
}

function Lines({
  lines,
  place,
  className,
}: {
  lines: readonly (readonly Point[])[];
  place: Place;
  className: string;
}) {
  return lines.map((line, i) => {
    const [x, y] = place(line[0] ?? [0, 0]);
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: lines of one picture do not move
      <g key={i} className={className}>
        <path d={path(line, place)} />
        <circle cx={x} cy={y} r={3} />
      </g>
    );
  });
}

function path(line: readonly Point[], place: Place): string {
  return line.map((point, i) => `${i === 0 ? 'M' : 'L'}${place(point).join(' ')}`).join('');
}

/** Into the frame; `even`: degrees, so that metres east and north are of one length. */
function fitted(points: readonly Point[], even: boolean): Place {
  const box = points.reduce(
    (b, [x, y]) => ({
      west: Math.min(b.west, x),
      east: Math.max(b.east, x),
      south: Math.min(b.south, y),
      north: Math.max(b.north, y),
    }),
    { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity },
  );
  const shrink = even ? Math.cos((((box.south + box.north) / 2) * Math.PI) / 180) : 1;
  const [w, h] = [
    Math.max((box.east - box.west) * shrink, 1e-9),
    Math.max(box.north - box.south, 1e-9),
  ];
  const [sx, sy] = [(WIDTH - 2 * MARGIN) / w, (HEIGHT - 2 * MARGIN) / h];
  const [kx, ky] = even ? [Math.min(sx, sy), Math.min(sx, sy)] : [sx, sy];
  const within = (value: number, most: number) => Math.min(most - 2, Math.max(2, value));
  const rounded = (value: number) => Number(value.toFixed(1));
  return ([x, y]) => [
    rounded(within(WIDTH / 2 + ((x - box.west) * shrink - w / 2) * kx, WIDTH)),
    rounded(within(HEIGHT / 2 - (y - box.south - h / 2) * ky, HEIGHT)),
  ];
}
