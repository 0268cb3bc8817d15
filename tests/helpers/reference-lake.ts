/** A reference survey estimated once for a test file: its rows, its fit and its bed. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Fit } from '../../models/fit/fitted-model.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Again } from '../../src/estimate/index.ts';
import { estimateSurvey } from '../../src/pipeline.ts';

export const LAKES = [
  'belt-nb1',
  'both-effect-size',
  'distance-halfnormal-point',
  'distance-hazardrate-full',
] as const;
export type LakeName = (typeof LAKES)[number];

export const lakePath = (name: LakeName): string =>
  join(import.meta.dirname, '../reference-lakes', name);

export type EstimatedLake = Again & { fit: Fit; result: SurveyResult };

const known = new Map<LakeName, Promise<EstimatedLake>>();

export function referenceLake(name: LakeName): Promise<EstimatedLake> {
  let found = known.get(name);
  if (!found) {
    found = estimated(name);
    known.set(name, found);
  }
  return found;
}

async function estimated(name: LakeName): Promise<EstimatedLake> {
  const path = lakePath(name);
  const files = new Map(
    readdirSync(path).map((file) => [file, new Uint8Array(readFileSync(join(path, file)))]),
  );
  const done = await estimateSurvey({ name, files });
  if (!done.ok || done.again === null) {
    throw new Error(
      `${name} could not be estimated: ${JSON.stringify(done.ok ? 'no bed' : done.findings)}`,
    );
  }
  return { ...done.again, fit: done.again.fits[0], result: done.result };
}
