/** A raster of depths or elevations → depth.tif. */

import { errorAt, type Finding } from '../../../shared/findings.ts';
import type { Ask, PlacedRaster, RawGeometry } from '../../../shared/importing.ts';
import type { LngLat } from '../../../shared/survey.ts';
import { formatCount } from '../../../shared/units.ts';
import { planeAround } from '../plane.ts';
import { writeRaster } from '../raster-file.ts';
import { compared, finalDepth, type MadeMap, rangeOf, tellAgreement } from './depth-final.ts';
import { linesOf, rasterSurface } from './depth-surface.ts';
import { askDepthUnit } from './depth-unit.ts';
import type { Divers } from './divers.ts';
import { median } from './line-fit.ts';

const FILE = 'depth.tif';
/** Vertices of the outline at which a raster is asked for the level of the lake, at most. */
const OUTLINE_PLACES = 2000;

export function depthOfRaster(
  raster: PlacedRaster,
  divers: Divers | null,
  outline: RawGeometry | null,
  ask: Ask,
): MadeMap {
  const findings: Finding[] = [];
  const remarks: string[] = [];
  const { least, most, count } = rangeOf(raster.values);
  if (count === 0) {
    const message = 'no cell holds a value (depths or elevations expected)';
    return {
      file: null,
      findings: [errorAt({ table: raster.file }, 'no-depth', message)],
      remarks,
    };
  }
  const mapAt = divers === null ? null : rasterSurface(raster, divers.plane);
  const comparison = compared(divers, mapAt, false);
  const facts = {
    about: raster.file,
    suffix: '',
    property: null,
    unit: raster.unit ?? null,
    own: false,
    unitsNamed: false,
    least,
    most,
    comparison,
    onOutline: onOutline(raster, outline),
  };
  const answers = askDepthUnit(facts, ask, remarks);
  if (answers === null) return { file: null, findings, remarks };
  tellAgreement(raster.file, comparison, answers, remarks);
  // what reads a survey folder refuses a raster that says that it is not in metres
  const inMetres = raster.unit === undefined || raster.unit === 'm';
  const untouched = answers.meaning.value === 'm' && answers.shiftM === 0 && least >= 0 && inMetres;
  if (untouched && raster.original !== null)
    return { file: { name: FILE, bytes: raster.original }, findings, remarks };
  let [dry, wet] = [0, 0];
  const values = raster.values.map((value) => {
    if (Number.isNaN(value)) return value;
    const depthM = finalDepth(answers, value);
    if (depthM < 0) dry++;
    else wet++;
    return depthM < 0 ? Number.NaN : depthM;
  });
  if (wet === 0) {
    const message = `as ${answers.meaning.label} no cell lies below the water (another reading of the numbers expected)`;
    findings.push(errorAt({ table: raster.file }, 'no-depth-below-water', message));
    return { file: null, findings, remarks };
  }
  if (dry > 0)
    remarks.push(
      `${raster.file}: ${formatCount(dry)} of ${formatCount(dry + wet)} cells lie above the water and have no depth.`,
    );
  const written = writeRaster({ ...raster, values });
  if ('refused' in written) {
    const message = `${written.refused} (a raster in UTM on WGS 84 expected, which GIS software makes of it)`;
    findings.push(errorAt({ table: raster.file }, 'raster-not-written', message));
    return { file: null, findings, remarks };
  }
  return { file: { name: FILE, bytes: written.bytes }, findings, remarks };
}

/** The middle of the raster's numbers on the outline: its water level, if they are elevations. */
function onOutline(raster: PlacedRaster, outline: RawGeometry | null): number | null {
  if (outline === null) return null;
  const all = linesOf(outline).flat();
  const step = Math.max(1, Math.ceil(all.length / OUTLINE_PLACES));
  const places = all.filter((_, i) => i % step === 0).map(([lon, lat]): LngLat => [lon, lat]);
  if (places.length === 0) return null;
  const plane = planeAround(places);
  const at = rasterSurface(raster, plane);
  const values = places.flatMap((p) => at(plane.forward(p))?.value ?? []);
  return 2 * values.length < places.length ? null : median(values);
}
