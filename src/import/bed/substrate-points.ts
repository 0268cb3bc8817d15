/** Substrate known at points only → substrate.geojson of the nearest sample's class, marked as interpolated. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import { capital, term } from '../../../shared/glossary.ts';
import type {
  Ask,
  ImportedTables,
  ImportPicture,
  RawGeometry,
  RawLayer,
} from '../../../shared/importing.ts';
import type { InterpolatedSubstrate, LngLat, XY } from '../../../shared/survey.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { plain } from '../../../shared/words.ts';
import { planeAround } from '../plane.ts';
import { ringsOf } from './bed-regions.ts';
import type { MadeMap } from './depth-final.ts';
import { collectionText, featureText } from './geojson.ts';
import { usualDistanceM } from './map-distance.ts';
import { layerName } from './names.ts';
import { nearestCells } from './nearest-cells.ts';
import {
  distanceEvidence,
  type LeftOut,
  leaveOneOut,
  nearestOthers,
  plantsLeftOut,
  type Sample,
} from './sample-agreement.ts';
import { gatheredSamples } from './substrate-samples.ts';

const FILE = 'substrate.geojson';
const LEAST_M = 1;
const MOST_M = 5000;

export function substrateOfPoints(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  outline: RawGeometry | null,
  ask: Ask,
): MadeMap {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  const nothing = { file: null, findings, remarks };
  if (outline === null) {
    const message = `a map of the ${term('substrate')} from points needs the outline of the lake; none is made`;
    if (layers.length > 0)
      findings.push(noticeAt({ table: layerName(layers[0]) }, 'points-without-outline', message));
    return nothing;
  }
  const rings = ringsOf(outline);
  const plane = planeAround(rings.flat().map(([lon, lat]): LngLat => [lon, lat]));
  const { samples, withBreaks } = gatheredSamples(layers, tables, plane, ask, findings, remarks);
  if (samples.length === 0) return nothing;
  const about = [...layers.map(layerName), ...(withBreaks ? ['habitat.csv'] : [])].join(', ');
  const greatestM = askDistance(about, samples, ask);
  if (greatestM === null) return nothing;
  const inPlane = rings.map((ring) =>
    ring.slice(0, -1).map(([lon, lat]) => plane.forward([lon, lat])),
  );
  const left = leaveOneOut(samples, greatestM);
  tellLeftOut(about, left, samples.length, greatestM, remarks);
  const apart = withNeighbours(samples, inPlane, greatestM, remarks);
  tellPlants(samples, greatestM, remarks);
  const lines = cellsOf(samples, inPlane, greatestM).flatMap(({ properties, polygons }) =>
    polygons.map((polygon) =>
      featureText(
        {
          type: 'Polygon',
          coordinates: polygon.map((ring) => ring.map((p): XY => plane.inverse(p))),
        },
        properties,
      ),
    ),
  );
  if (lines.length === 0) {
    const message = `no sample lies within ${formatCount(greatestM)} m of the lake (samples on the lake expected)`;
    findings.push(errorAt({ table: about }, 'samples-off-the-lake', message));
    return nothing;
  }
  const interpolated = {
    points: samples.length,
    greatest_distance_m: greatestM,
    leave_one_out_share: shareOf(left),
    ...apart,
  };
  return {
    file: { name: FILE, bytes: collectionText(lines, { interpolated }) },
    findings,
    remarks,
  };
}

/** Areas of one substrate and, where the samples know it, of one plant cover. */
function cellsOf(samples: readonly Sample[], outline: readonly XY[][], greatestM: number) {
  const keyOf = ({ class: name, plantCover }: Sample) => `${name}\n${plantCover ?? ''}`;
  const points = samples.map((sample) => ({ at: sample.at, class: keyOf(sample) }));
  return nearestCells(points, outline, greatestM).map(({ class: key, polygons }) => {
    const [substrate, plants] = key.split('\n');
    const cover = plants === '' ? {} : { plant_cover: Number(plants) };
    return { properties: { substrate, ...cover }, polygons };
  });
}

function tellPlants(samples: readonly Sample[], greatestM: number, remarks: string[]): void {
  const known = samples.filter(({ plantCover = null }) => plantCover !== null).length;
  if (known === 0) return;
  const { judged, right, nearly } = plantsLeftOut(samples, greatestM);
  const share =
    judged === 0
      ? 'none could be judged by another one'
      : `left out one by one, the nearest other one has the same score for ${formatPercent(right / judged)} of ${formatCount(judged)}, and one that differs by 1 at most for ${formatPercent(nearly / judged)}`;
  remarks.push(
    `The ${term('plantCover')} of the map is that of the same samples (${formatCount(known)} of ${formatCount(samples.length)} have one): ${share}.`,
  );
}

/** Samples in groups tell each other better than they tell the lake: judged once more from as far as its places are from a sample. */
function withNeighbours(
  samples: readonly Sample[],
  outline: readonly XY[][],
  greatestM: number,
  remarks: string[],
): Pick<InterpolatedSubstrate, 'neighbours_within_m' | 'leave_neighbours_out_share'> {
  const usualM = usualDistanceM(
    samples.map(({ at }) => at),
    outline,
    greatestM,
  );
  if (usualM === null) return { neighbours_within_m: null, leave_neighbours_out_share: null };
  const withinM = Number(usualM.toPrecision(2));
  const left = leaveOneOut(samples, greatestM, nearestOthers(samples, withinM));
  const told =
    left.judged === 0
      ? 'no sample has another one at that distance to be told by'
      : `${formatPercent(left.right / left.judged)} of ${formatCount(left.judged)} are told right`;
  remarks.push(
    `Half of the mapped bed lies ${plain(withinM)} m or more from its sample. Left out together with all others so near, ${told}: that is nearer to what the map gets right than the share one by one, where samples lie in groups.`,
  );
  return { neighbours_within_m: withinM, leave_neighbours_out_share: shareOf(left) };
}

function shareOf({ judged, right }: LeftOut): number | null {
  return judged === 0 ? null : Number((right / judged).toFixed(4));
}

function askDistance(about: string, samples: readonly Sample[], ask: Ask): number | null {
  const nearest = nearestOthers(samples);
  const { bands, chance, spacingM, proposalM, why } = distanceEvidence(samples, nearest);
  const rows = bands.map((b) => {
    const left = leaveOneOut(samples, b.toM, nearest);
    return [
      `${formatCount(b.fromM)} to ${formatCount(b.toM)} m`,
      formatCount(b.pairs),
      formatPercent(b.alike / b.pairs),
      formatCount(left.judged),
      left.judged === 0 ? '' : formatPercent(left.right / left.judged),
    ];
  });
  const table: ImportPicture = {
    kind: 'table',
    caption: `How alike samples are by the distance between them, and how many are told right by the nearest other one up to there. Any two are alike in ${formatPercent(chance)}.`,
    header: ['distance', 'pairs', 'of one class', 'left out and told', 'told right'],
    rows,
  };
  const near = bands[0];
  return ask({
    kind: 'number',
    id: 'substrate.distance',
    about,
    ask: `How far from a sample may the map go, in metres? Farther away it has no ${term('substrate')}.`,
    evidence: [
      `There are ${formatCount(samples.length)} samples${spacingM === null ? '' : `; from one to the next it is ${formatCount(spacingM)} m (median)`}.`,
      ...(near === undefined
        ? []
        : [
            `Up to ${formatCount(near.toM)} m apart ${formatPercent(near.alike / near.pairs)} of ${formatCount(near.pairs)} pairs are of one class, any two in ${formatPercent(chance)}.`,
          ]),
      `${capital(why)}.`,
    ],
    certain: false,
    pictures: [table],
    unit: 'm',
    least: LEAST_M,
    most: MOST_M,
    proposal: proposalM === null ? null : Math.min(proposalM, MOST_M),
  });
}

function tellLeftOut(
  about: string,
  { judged, right, classes }: LeftOut,
  samples: number,
  greatestM: number,
  remarks: string[],
): void {
  const share =
    judged === 0
      ? 'no sample has another one so near'
      : `${formatPercent(right / judged)} of ${formatCount(judged)} samples are told right by the nearest other one`;
  remarks.push(
    `${about}: the map of the ${term('substrate')} is interpolated from ${formatCount(samples)} samples, no farther than ${formatCount(greatestM)} m from one; left out one by one, ${share}.`,
  );
  for (const row of classes)
    if (row.judged > 0)
      remarks.push(
        `Samples of ${row.class}: ${formatPercent(row.right / row.judged)} of ${formatCount(row.judged)} are told right.`,
      );
}
