/**
 * A small map of what a question is about: shapes in longitude and latitude, drawn to fit. Shapes of an answer have its
 * letter; where they lie far apart the scale says how far.
 */

import { useId } from 'react';
import {
  type ImportPicture,
  type Option,
  type PictureShape,
  positionsOf,
  type RawGeometry,
} from '../../../../shared/importing.ts';
import { formatDigits } from '../../../../shared/units.ts';
import { visible } from '../../../../shared/words.ts';

const WIDTH = 440;
const HEIGHT = 300;
const MARGIN = 22;
/** Metres on a degree of latitude, mean (the meridian of WGS 84 divided by 360). */
const M_PER_DEGREE = 111_133;
/** A map of one point still shows what lies around it. */
const LEAST_DEGREES = 1e-5;
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

type Picture = Extract<ImportPicture, { kind: 'map' }>;
type Place = (position: readonly number[]) => [x: number, y: number];

export function PictureMap({
  picture: { caption, shapes },
  options,
}: {
  picture: Picture;
  /** answers that shapes may belong to */
  options: readonly Option[];
}) {
  const id = useId();
  const positions = shapes.flatMap(({ geometry }) => positionsOf(geometry));
  if (positions.length === 0) return null;
  const { place, pxPerM } = frameOf(positions);
  const letters = lettersOf(shapes);
  const named = shapes.filter(({ label }) => label !== '');
  return (
    <figure className="figure" aria-labelledby={id}>
      <figcaption id={id} className="figure-title">
        {visible(caption)}
      </figcaption>
      <svg
        className="picture-map"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={visible(`${caption}: ${named.map(({ label }) => label).join('; ')}`)}
      >
        {shapes.map((shape, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes of one picture do not move
          <Shape key={i} shape={shape} place={place} letter={letters.get(shape.option ?? '')} />
        ))}
        <ScaleBar pxPerM={pxPerM} />
      </svg>
      <ul className="plain-list small picture-key">
        {named.map(({ label, look, option }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes of one picture do not move
          <li key={i} className={`key-${look}`}>
            {option !== null && <b>{letters.get(option)} </b>}
            {visible(options.find(({ value }) => value === option)?.label ?? label)}
          </li>
        ))}
      </ul>
    </figure>
  );
}

function Shape({
  shape: { geometry, look },
  place,
  letter,
}: {
  shape: PictureShape;
  place: Place;
  letter: string | undefined;
}) {
  const [x, y] = highest(positionsOf(geometry).map(place));
  return (
    <g className={`shape-${look}`}>
      {pathsOf(geometry, place).map((d, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: paths of one shape do not move
        <path key={i} d={d} />
      ))}
      {pointsOf(geometry).map((point, i) => {
        const [cx, cy] = place(point);
        // biome-ignore lint/suspicious/noArrayIndexKey: points of one shape do not move
        return <circle key={i} cx={cx} cy={cy} r={3} />;
      })}
      {letter !== undefined && (
        <text x={x} y={y - 6}>
          {letter}
        </text>
      )}
    </g>
  );
}

function ScaleBar({ pxPerM }: { pxPerM: number }) {
  const most = (WIDTH / 3) * (1 / pxPerM);
  const power = 10 ** Math.floor(Math.log10(most));
  const lengthM = ([5, 2, 1].find((step) => step * power <= most) ?? 1) * power;
  const x = WIDTH - MARGIN - lengthM * pxPerM;
  return (
    <g className="shape-scale">
      <path d={`M${x} ${HEIGHT - 10}h${lengthM * pxPerM}`} />
      <text x={x} y={HEIGHT - 15}>
        {lengthM >= 1000
          ? `${formatDigits(lengthM / 1000, 2)} km`
          : `${formatDigits(lengthM, 2)} m`}
      </text>
    </g>
  );
}

/** North up, as wide as it is high in metres at the middle's latitude. */
function frameOf(positions: readonly (readonly number[])[]): { place: Place; pxPerM: number } {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of positions) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  const shrink = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const wide = Math.max((east - west) * shrink, LEAST_DEGREES);
  const high = Math.max(north - south, LEAST_DEGREES);
  const scale = Math.min((WIDTH - 2 * MARGIN) / wide, (HEIGHT - 2 * MARGIN) / high);
  const [midX, midY] = [(west + east) / 2, (south + north) / 2];
  return {
    place: ([x, y]) => [WIDTH / 2 + (x - midX) * shrink * scale, HEIGHT / 2 - (y - midY) * scale],
    pxPerM: scale / M_PER_DEGREE,
  };
}

function lettersOf(shapes: readonly PictureShape[]): Map<string, string> {
  const options = [...new Set(shapes.flatMap(({ option }) => option ?? []))];
  return new Map(options.map((option, i) => [option, LETTERS[i % LETTERS.length]]));
}

function pointsOf(geometry: RawGeometry): number[][] {
  return /Point$/.test(geometry.type) ? positionsOf(geometry) : [];
}

function pathsOf(geometry: RawGeometry, place: Place): string[] {
  const line = (positions: number[][]): string =>
    positions
      .map((position, i) => {
        const [x, y] = place(position);
        return `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`;
      })
      .join('');
  const rings = (polygon: number[][][]): string => polygon.map((ring) => `${line(ring)}Z`).join('');
  switch (geometry.type) {
    case 'LineString':
      return [line(geometry.coordinates)];
    case 'MultiLineString':
      return geometry.coordinates.map(line);
    case 'Polygon':
      return [rings(geometry.coordinates)];
    case 'MultiPolygon':
      return geometry.coordinates.map(rings);
    default:
      return [];
  }
}

/** Where a letter is least in the way of other shapes. */
function highest(points: [number, number][]): [number, number] {
  return points.reduce((top, point) => (point[1] < top[1] ? point : top), [0, HEIGHT]);
}
