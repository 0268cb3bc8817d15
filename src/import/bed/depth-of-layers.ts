/** Contours, contour polygons and soundings → depth.geojson. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { compared, finalDepth, type MadeMap, rangeOf, tellAgreement } from './depth-final.ts';
import { depthPlaces } from './depth-meaning.ts';
import { linesSurface } from './depth-surface.ts';
import { askDepthUnit, type DepthAnswers } from './depth-unit.ts';
import { type DepthValues, depthValues, OWN_NAME } from './depth-values.ts';
import type { Divers } from './divers.ts';
import { collectionText, featureText } from './geojson.ts';
import { append } from './lists.ts';
import { layerName } from './names.ts';

const FILE = 'depth.geojson';

export function depthOfLayers(
  layers: readonly RawLayer[],
  divers: Divers | null,
  ask: Ask,
): MadeMap {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  const lines: string[] = [];
  let waits = false;
  for (const [i, layer] of layers.entries()) {
    const suffix = i === 0 ? '' : `.${i + 1}`;
    const read = depthValues(layer, suffix, ask);
    append(findings, read.findings);
    append(remarks, read.remarks);
    if (read.values === null) continue;
    const understood = understand(read.values, suffix, divers, ask, remarks);
    if (understood === null) waits = true;
    else append(lines, write(read.values, understood, findings, remarks));
  }
  if (lines.length === 0 || waits) return { file: null, findings, remarks };
  const bytes = collectionText(lines);
  return { file: { name: FILE, bytes }, findings, remarks };
}

/** Turned into metres first where every value names its unit. */
function understand(
  values: DepthValues,
  suffix: string,
  divers: Divers | null,
  ask: Ask,
  remarks: string[],
): DepthAnswers | null {
  const bare = values.features.filter((f) => f.unitM === null);
  const unitsNamed = bare.length === 0;
  const judged = unitsNamed
    ? values.features.map((f) => ({ ...f, value: f.value * (f.unitM ?? 1) }))
    : bare;
  const places = divers === null ? [] : depthPlaces(divers);
  const mapAt =
    divers === null
      ? null
      : linesSurface(
          judged,
          divers.plane,
          places.map((p) => p.at),
        );
  const comparison = compared(divers, mapAt, unitsNamed);
  const { least, most } = rangeOf(judged.map((f) => f.value));
  const about = layerName(values.layer);
  const own = values.property.toLowerCase() === OWN_NAME;
  const facts = {
    about,
    suffix,
    property: values.property,
    unit: null,
    own,
    unitsNamed,
    least,
    most,
    comparison,
    onOutline: null,
  };
  const answers = askDepthUnit(facts, ask, remarks);
  if (answers !== null) tellAgreement(about, comparison, answers, remarks);
  return answers;
}

function write(
  { layer, features, property }: DepthValues,
  answers: DepthAnswers,
  findings: Finding[],
  remarks: string[],
): string[] {
  const unitsNamed = features.every((f) => f.unitM !== null);
  let dry = 0;
  const lines = features.flatMap(({ feature, value, unitM }): string[] => {
    // a value that names its unit is put into the unit of the others
    const inMapUnit =
      unitM === null ? value : (value * unitM) / (unitsNamed ? 1 : answers.meaning.unitM);
    const depthM = finalDepth(answers, inMapUnit);
    if (depthM < 0) {
      dry++;
      return [];
    }
    return [featureText(feature.geometry, { [OWN_NAME]: depthM })];
  });
  if (dry > 0)
    remarks.push(
      `${layerName(layer)}: ${formatCount(dry)} of ${formatCount(features.length)} features lie above the water and are left out.`,
    );
  if (lines.length === 0) {
    const message = `as ${answers.meaning.label} no feature lies below the water (another reading of the numbers expected)`;
    findings.push(
      errorAt({ table: layerName(layer), column: property }, 'no-depth-below-water', message),
    );
  }
  return lines;
}
