/** Substrate known at points only → substrate.geojson of the nearest sample's class, marked as interpolated. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import { capital, term, terms } from '../../../shared/glossary.ts';
import type {
  Ask,
  ImportedTables,
  ImportPicture,
  RawGeometry,
  RawLayer,
} from '../../../shared/importing.ts';
import type { LngLat, XY } from '../../../shared/survey.ts';
import { formatCount, formatPercent } from '../../../shared/units.ts';
import { type LakePlane, planeAround } from '../plane.ts';
import { agreementTable, diverAgainstSamples, inOrder, spotsOf } from './against-map.ts';
import { ringsOf } from './bed-regions.ts';
import { matchCodes } from './class-codes.ts';
import { classProperty, codeOf } from './class-property.ts';
import type { MadeMap } from './depth-final.ts';
import { diversOf } from './divers.ts';
import { collectionText, featureText } from './geojson.ts';
import { layerName } from './names.ts';
import { nearestCells } from './nearest-cells.ts';
import {
  distanceEvidence,
  type LeftOut,
  leaveOneOut,
  nearestOthers,
  type Sample,
} from './sample-agreement.ts';

const FILE = 'substrate.geojson';
/** Every so many spots along a transect, a metre apart, one stands for what divers recorded. */
const SPOTS_A_SAMPLE = 5;
/** Two samples nearer than this are at one place, m. */
const SAME_PLACE_M = 0.01;
/** A sample so near to a transect tells of the bed that divers saw, m. */
const BESIDE_M = 10;
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
  const given = samplesOf(layers, tables, plane, ask, findings, remarks);
  const withBreaks = askBreaks(given.length, tables, ask);
  const all = withBreaks ? [...given, ...breakSamples(tables, plane)] : given;
  const samples = onePlaceEach(all, remarks);
  if (samples.length === 0) return nothing;
  const about = [...layers.map(layerName), ...(withBreaks ? ['habitat.csv'] : [])].join(', ');
  const greatestM = askDistance(about, samples, ask);
  if (greatestM === null) return nothing;
  const left = leaveOneOut(samples, greatestM);
  tellLeftOut(about, left, samples.length, greatestM, remarks);
  const inPlane = rings.map((ring) =>
    ring.slice(0, -1).map(([lon, lat]) => plane.forward([lon, lat])),
  );
  const lines = nearestCells(samples, inPlane, greatestM).flatMap(
    ({ class: substrate, polygons }) =>
      polygons.map((polygon) =>
        featureText(
          {
            type: 'Polygon',
            coordinates: polygon.map((ring) => ring.map((p): XY => plane.inverse(p))),
          },
          { substrate },
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
    leave_one_out_share: left.judged === 0 ? null : Number((left.right / left.judged).toFixed(4)),
  };
  return {
    file: { name: FILE, bytes: collectionText(lines, { interpolated }) },
    findings,
    remarks,
  };
}

function samplesOf(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  plane: LakePlane,
  ask: Ask,
  findings: Finding[],
  remarks: string[],
): Sample[] {
  const coded = layers.flatMap((layer, i) => {
    const found = classProperty(layer, i === 0 ? '' : `.${i + 1}`, ask, remarks);
    if (found === null) {
      const message = `no property holds classes of the ${term('substrate')}; the points are left out`;
      findings.push(noticeAt({ table: layerName(layer) }, 'no-substrate-property', message));
      return [];
    }
    return layer.features.flatMap((feature) => {
      const code = codeOf(feature.properties[found.property]);
      return code === null
        ? []
        : placesOf(feature.geometry).map((place) => ({ at: plane.forward(place), code }));
    });
  });
  const points = layers.reduce((n, layer) => n + layer.features.length, 0);
  if (points > coded.length)
    remarks.push(
      `${formatCount(points - coded.length)} of ${formatCount(points)} points have no ${term('substrate')} and are left out.`,
    );
  if (coded.length === 0) return [];
  const counts = new Map<string, number>();
  for (const { code } of coded) counts.set(code, (counts.get(code) ?? 0) + 1);
  const about = layers.map(layerName).join(', ');
  const divers = diversOf(tables);
  const against =
    divers === null
      ? null
      : diverAgainstSamples(
          divers,
          coded.map(({ at, code }) => ({ at: divers.plane.forward(plane.inverse(at)), code })),
          BESIDE_M,
        );
  const pictures =
    against === null || against.comparedM === 0
      ? []
      : [agreementTable(against, `code of the nearest sample within ${BESIDE_M} m`)];
  const classOf = matchCodes(about, counts, tables, against, pictures, ask, remarks);
  return coded.flatMap(({ at, code }): Sample[] => {
    const name = classOf?.get(code) ?? null;
    return name === null ? [] : [{ at, class: name, group: null }];
  });
}

function placesOf(geometry: RawGeometry): LngLat[] {
  if (geometry.type === 'Point') return [[geometry.coordinates[0], geometry.coordinates[1]]];
  return geometry.type === 'MultiPoint'
    ? geometry.coordinates.map((p): LngLat => [p[0], p[1]])
    : [];
}

/** Whether what divers recorded along the transects is used as samples too, or alone. */
function askBreaks(given: number, tables: ImportedTables, ask: Ask): boolean {
  const divers = diversOf(tables);
  const spots = divers === null ? [] : spotsOf(divers);
  if (spots.length === 0) return false;
  const length = formatCount(spots.reduce((sum, s) => sum + s.lengthM, 0));
  const placed = formatCount(new Set(spots.map((s) => s.transect)).size);
  const answer = ask({
    kind: 'choice',
    id: 'substrate.samples',
    about: 'habitat.csv',
    ask:
      given > 0
        ? `Is the ${term('substrate')} that divers recorded along the ${terms('transect')} used for the map as well?`
        : `There is no map of the ${term('substrate')}. Is one made from what divers recorded along the ${terms('transect')}?`,
    evidence: [
      `Divers recorded the ${term('substrate')} along ${length} m of ${placed} ${terms('transect')}.`,
      given > 0
        ? `There are ${formatCount(given)} samples besides.`
        : `Without such a map there is no total for the lake; a map from few ${terms('transect')} reaches not far from them.`,
    ],
    certain: false,
    pictures: [],
    options: [
      { value: 'no', label: given > 0 ? 'the samples alone' : 'no map is made' },
      {
        value: 'yes',
        label: given > 0 ? 'the samples and what divers recorded' : 'from what divers recorded',
      },
    ],
    proposal: given > 0 ? 'yes' : 'no',
  });
  return answer === 'yes';
}

function breakSamples(tables: ImportedTables, plane: LakePlane): Sample[] {
  const divers = diversOf(tables);
  if (divers === null) return [];
  return spotsOf(divers)
    .filter((_, i) => i % SPOTS_A_SAMPLE === Math.floor(SPOTS_A_SAMPLE / 2))
    .map(({ at, substrate, transect }) => ({
      at: plane.forward(divers.plane.inverse(at)),
      class: substrate,
      group: transect,
    }));
}

/** Of several samples at one place the first counts. */
function onePlaceEach(samples: readonly Sample[], remarks: string[]): Sample[] {
  const seen = new Map<string, Sample>();
  let differ = 0;
  for (const sample of samples) {
    const key = sample.at.map((v) => Math.round(v / SAME_PLACE_M)).join(' ');
    const first = seen.get(key);
    if (first === undefined) seen.set(key, sample);
    else if (inOrder(first.class) !== inOrder(sample.class)) differ++;
  }
  const again = samples.length - seen.size;
  if (again > 0)
    remarks.push(
      `${formatCount(again)} samples lie at the place of an earlier one and do not count; ${formatCount(differ)} of them have another ${term('substrate')}.`,
    );
  return [...seen.values()];
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
