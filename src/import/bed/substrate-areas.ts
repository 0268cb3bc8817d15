/** A map of areas with a code each → substrate.geojson with the divers' classes. */

import { errorAt, type Finding, noticeAt } from '../../../shared/findings.ts';
import { term } from '../../../shared/glossary.ts';
import type { Ask, ImportedTables, RawFeature, RawLayer } from '../../../shared/importing.ts';
import { formatCount } from '../../../shared/units.ts';
import { agreementTable, agreementTold, diverAgainstMap, lengthsTold } from './against-map.ts';
import { regionsOf } from './bed-regions.ts';
import { matchCodes } from './class-codes.ts';
import { type ClassProperty, classProperty, codeOf } from './class-property.ts';
import type { MadeMap } from './depth-final.ts';
import { diversOf } from './divers.ts';
import { collectionText, featureText } from './geojson.ts';
import { append } from './lists.ts';
import { layerName } from './names.ts';
import { plantProperty } from './plant-property.ts';

const FILE = 'substrate.geojson';

interface Area {
  feature: RawFeature;
  code: string;
  plantCover: number | null;
}

export function substrateOfAreas(
  layers: readonly RawLayer[],
  tables: ImportedTables,
  ask: Ask,
): MadeMap {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  const areas = layers.flatMap((layer, i) => {
    const suffix = i === 0 ? '' : `.${i + 1}`;
    const found = classProperty(layer, suffix, ask, remarks);
    if (found !== null) return areasOf(found, suffix, ask, findings, remarks);
    const message = `no property holds classes of the ${term('substrate')}; the layer is left out`;
    findings.push(noticeAt({ table: layerName(layer) }, 'no-substrate-property', message));
    return [];
  });
  if (areas.length === 0) return { file: null, findings, remarks };
  const about = layers.map(layerName).join(', ');
  const divers = diversOf(tables);
  const regions =
    divers === null
      ? null
      : regionsOf(
          areas.map((a) => a.feature.geometry),
          divers.plane,
        );
  const byCode =
    divers === null || regions === null
      ? null
      : diverAgainstMap(divers, regions, (k) => areas[k].code);
  const pictures =
    byCode === null || byCode.comparedM === 0 ? [] : [agreementTable(byCode, 'code of the map')];
  const classOf = matchCodes(about, counted(areas), tables, byCode, pictures, ask, remarks);
  if (classOf === null) return { file: null, findings, remarks };
  if (divers !== null && regions !== null) {
    const against = diverAgainstMap(divers, regions, (k) => classOf.get(areas[k].code) ?? null);
    const told = agreementTold(against);
    if (told !== null) append(remarks, [told, ...lengthsTold(against)]);
  }
  const lines = areas.flatMap(({ feature, code, plantCover }): string[] => {
    const substrate = classOf.get(code) ?? null;
    if (substrate === null) return [];
    const plants = plantCover === null ? {} : { plant_cover: plantCover };
    return [featureText(feature.geometry, { substrate, ...plants })];
  });
  if (lines.length > 0)
    return { file: { name: FILE, bytes: collectionText(lines) }, findings, remarks };
  const message = `every code is left out (a class for one of them at least expected)`;
  findings.push(errorAt({ table: about }, 'no-substrate-left', message));
  return { file: null, findings, remarks };
}

function areasOf(
  { layer, property }: ClassProperty,
  suffix: string,
  ask: Ask,
  findings: Finding[],
  remarks: string[],
): Area[] {
  const table = layerName(layer);
  const plants = plantProperty(layer, suffix, ask, remarks);
  const areas: Area[] = [];
  let [shapes, blank] = [0, 0];
  for (const feature of layer.features) {
    const code = codeOf(feature.properties[property]);
    if (!/Polygon$/.test(feature.geometry.type)) shapes++;
    else if (code === null) blank++;
    else areas.push({ feature, code, plantCover: plants === null ? null : plants(feature) });
  }
  const told = (n: number, what: string, code: string): void => {
    if (n === 0) return;
    const message = `${formatCount(n)} of ${formatCount(layer.features.length)} features ${what}; they are left out`;
    append(findings, [noticeAt({ table, column: property }, code, message)]);
  };
  told(shapes, 'are no areas', 'substrate-no-area');
  told(blank, `have no ${term('substrate')}`, 'substrate-blank');
  return areas;
}

function counted(areas: readonly Area[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { code } of areas) counts.set(code, (counts.get(code) ?? 0) + 1);
  return counts;
}
