/**
 * Makes every file of the invented lake, byte for byte the same on every run: `npx tsx demo-lake/make.ts`.
 * The seed is 1 because that is the first one; it was not chosen for what comes out.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { stream } from '../models/numbers/random.ts';
import { DEFAULT_ANALYSIS } from '../shared/analysis.ts';
import type { XY } from '../shared/survey.ts';
import { dataPackage } from '../shared/table-schema.ts';
import { planDives } from './make/dives.ts';
import {
  depthLayer,
  outlineLayer,
  substrateLayer,
  TREATMENTS,
  treatmentLayer,
} from './make/layers.ts';
import { detectionRows, habitatRows, toCsv, transectRows } from './make/sheets.ts';
import { searchRopes } from './make/survey.ts';
import { contains } from './make/trace.ts';
import { type Expected, integrate, type SurveyedDomain, TRUTH } from './make/truth.ts';

const SEED = 1;
const LAKE = 'Hollowreed Lake';
/** One stream for each kind of chance, so that a change of one leaves the others as they are. */
const STREAMS = { dives: 0, mussels: 1, sheets: 2 };
const INTEGRATION_STEP_M = 1;

/**
 * File name → text of all files that are made (README.md is written by hand).
 * @param seed another one is another survey of the same lake
 */
export function makeDemo(seed = SEED): Map<string, string> {
  const dives = planDives(stream(seed, STREAMS.dives));
  const finds = searchRopes(dives, stream(seed, STREAMS.mussels));
  const noise = stream(seed, STREAMS.sheets);
  const habitat = habitatRows(dives);
  return new Map([
    ['transects.csv', toCsv(transectRows(dives, noise))],
    ['habitat.csv', toCsv(habitat)],
    ['detections.csv', toCsv(detectionRows(dives, finds, noise))],
    ['outline.geojson', outlineLayer()],
    ['substrate.geojson', substrateLayer()],
    ['depth.geojson', depthLayer()],
    ['treatments.geojson', treatmentLayer()],
    ['analysis.json', toJson({ lake: LAKE, map: { threshold_per_m2: 1 }, seed })],
    ['datapackage.json', toJson(dataPackage(LAKE))],
    ['truth.json', toJson(truth(surveyedDomain(habitat), seed))],
  ]);
}

type HabitatRows = ReturnType<typeof habitatRows>;

/** Classes, recorded depths widened by the default tolerance, and plant cover, as the sheets have them. */
function surveyedDomain(habitat: HabitatRows): SurveyedDomain {
  const depths = habitat.map((row) => Number(row.depth_m));
  const covers = habitat.flatMap((row) =>
    row.plant_cover === null ? [] : [Number(row.plant_cover)],
  );
  const labels = habitat.flatMap((row) => (row.substrate === null ? [] : [String(row.substrate)]));
  const tolerance = DEFAULT_ANALYSIS.map.depth_tolerance_m;
  return {
    classes: [...new Set(labels.flatMap((label) => label.split('+')))].sort(),
    depthFromM: Math.min(...depths) - tolerance,
    depthToM: Math.max(...depths) + tolerance,
    plantCoverFrom: Math.min(...covers),
    plantCoverTo: Math.max(...covers),
  };
}

function truth(domain: SurveyedDomain, seed: number): object {
  const areas = TREATMENTS.map(
    ({ ring }) =>
      (p: XY) =>
        contains(ring, p),
  );
  const [whole, ...treated] = integrate(domain, INTEGRATION_STEP_M, [() => true, ...areas]);
  const rounded = ({ clusters, mussels, areaM2 }: Expected) => ({
    clusters: Math.round(clusters),
    mussels: Math.round(mussels),
    area_m2: Math.round(areaM2),
  });
  return {
    lake: LAKE,
    about:
      'Invented. True expected abundance on the mapped bed within the surveyed domain; see README.md.',
    ...rounded(whole!),
    domain: {
      classes: domain.classes,
      depth_from_m: Number(domain.depthFromM.toFixed(3)),
      depth_to_m: Number(domain.depthToM.toFixed(3)),
      plant_cover_from: domain.plantCoverFrom,
      plant_cover_to: domain.plantCoverTo,
    },
    treatments: TREATMENTS.map(({ name }, i) => ({ name, ...rounded(treated[i]) })),
    integration_step_m: INTEGRATION_STEP_M,
    seed,
    parameters: TRUTH,
  };
}

function toJson(value: object): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, text] of makeDemo()) {
    writeFileSync(new URL(name, import.meta.url), text);
    console.log(`${name}: ${text.length} characters`);
  }
}
