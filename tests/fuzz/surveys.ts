/** Sound surveys that the fuzzer spoils: small ones, with contours and with a raster; a few that simulate; five lakes. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SURVEY_FILES } from '../../shared/survey-files.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { rasterSurvey } from '../helpers/raster-survey.ts';
import type { Files } from './mutate/draw.ts';

export interface Sound {
  name: string;
  /** checks, or an estimate, take a second or more */
  large: boolean;
  files: () => Files;
}

/** `root` is the repository's folder. */
export function soundSurveys(root: string): Sound[] {
  const small = (name: string, files: () => Files): Sound => ({ name, large: false, files });
  const read = (path: string): Sound => ({
    name: path,
    large: true,
    files: onDisk(join(root, path)),
  });
  const lakes = readdirSync(join(root, 'tests/reference-lakes'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => `tests/reference-lakes/${name}`);
  return [
    small('small', () => toFolder(baseSurvey()).files),
    small('small, raster', () => rasterSurvey().files),
    small('small, one design', oneDesign),
    ...['demo-lake', ...lakes].map(read),
  ];
}

function onDisk(folder: string): () => Files {
  return () => {
    const there = new Set(readdirSync(folder));
    const names = SURVEY_FILES.filter((name) => there.has(name));
    return new Map(names.map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]));
  };
}

/** The distance transects of the base survey alone. */
function oneDesign(): Files {
  const texts = baseSurvey();
  for (const name of ['transects.csv', 'habitat.csv', 'detections.csv']) {
    const lines = (texts[name] ?? '').split('\n');
    texts[name] = lines.filter((line) => !/^T[123],/.test(line)).join('\n');
  }
  return toFolder(texts).files;
}
