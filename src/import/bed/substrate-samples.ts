/** The samples that a map of the substrate is made from: points of maps and tables, and what divers recorded along the transects. */

import { type Finding, noticeAt } from '../../../shared/findings.ts';
import { term, terms } from '../../../shared/glossary.ts';
import type { Ask, ImportedTables, RawGeometry, RawLayer } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import type { LakePlane } from '../plane.ts';
import { agreementTable, diverAgainstSamples, inOrder, spotsOf } from './against-map.ts';
import { matchCodes } from './class-codes.ts';
import { classProperty, codeOf } from './class-property.ts';
import { diversOf } from './divers.ts';
import { layerName } from './names.ts';
import { plantProperty } from './plant-property.ts';
import type { Sample } from './sample-agreement.ts';

/** Every so many spots along a transect, a metre apart, one stands for what divers recorded. */
const SPOTS_A_SAMPLE = 5;
/** Two samples nearer than this are at one place, m. */
const SAME_PLACE_M = 0.01;
/** A sample so near to a transect tells of the bed that divers saw, m. */
const BESIDE_M = 10;

/** One sample a place, in the lake's plane; whether those of the divers are among them. */
export function gatheredSamples(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  plane: LakePlane,
  ask: Ask,
  findings: Finding[],
  remarks: string[],
): { samples: Sample[]; withBreaks: boolean } {
  const given = samplesOf(layers, tables, plane, ask, findings, remarks);
  const withBreaks = askBreaks(given.length, tables, ask);
  const all = withBreaks ? [...given, ...breakSamples(tables, plane)] : given;
  return { samples: onePlaceEach(all, remarks), withBreaks };
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
    const plants = plantProperty(layer, i === 0 ? '' : `.${i + 1}`, ask, remarks);
    return layer.features.flatMap((feature) => {
      const code = codeOf(feature.properties[found.property]);
      const plantCover = plants === null ? null : plants(feature);
      return code === null
        ? []
        : placesOf(feature.geometry).map((place) => ({
            at: plane.forward(place),
            code,
            plantCover,
          }));
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
  return coded.flatMap(({ at, code, plantCover }): Sample[] => {
    const name = classOf?.get(code) ?? null;
    return name === null ? [] : [{ at, class: name, group: null, plantCover }];
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
    .map(({ at, substrate, transect, plantCover }) => ({
      at: plane.forward(divers.plane.inverse(at)),
      class: substrate,
      group: transect,
      plantCover,
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
