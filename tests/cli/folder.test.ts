/** What stands in a survey folder in the place of a file: only files of the folder itself are read. */

import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../src/cli/core.ts';
import { readSurveyFolder, readTruth } from '../../src/cli/folder.ts';
import { testFolder } from '../helpers/folder.ts';

const parent = testFolder();
const survey = (): string => mkdtempSync(join(parent, 'survey-'));

describe('in the place of a table', () => {
  it('a pipe that nobody writes to is refused, not waited for', async () => {
    const folder = survey();
    execFileSync('mkfifo', [join(folder, 'habitat.csv')]);
    const reading = readSurveyFolder(folder);
    await expect(reading).rejects.toThrow(InputError);
    await expect(reading).rejects.toThrow(/habitat.csv: a pipe or device, not a file/);
  });

  it('a link out of the folder is refused', async () => {
    const folder = survey();
    writeFileSync(join(parent, 'secret.csv'), 'a,b\n');
    symlinkSync('../secret.csv', join(folder, 'transects.csv'));
    await expect(readSurveyFolder(folder)).rejects.toThrow(
      /transects.csv: a link out of the folder/,
    );
  });

  it('a link to a device is refused', async () => {
    const folder = survey();
    symlinkSync('/dev/zero', join(folder, 'depth.tif'));
    await expect(readSurveyFolder(folder)).rejects.toThrow(/depth.tif: a link out of the folder/);
  });

  it('a link to itself is refused', async () => {
    const folder = survey();
    symlinkSync('habitat.csv', join(folder, 'habitat.csv'));
    await expect(readSurveyFolder(folder)).rejects.toThrow(/habitat.csv: cannot be read/);
  });

  it('a link within the folder is followed, also in a folder that is a link itself', async () => {
    const folder = survey();
    writeFileSync(join(folder, 'habitat-2.csv'), 'text');
    symlinkSync('habitat-2.csv', join(folder, 'habitat.csv'));
    symlinkSync(folder, join(parent, 'link'));
    for (const path of [folder, join(parent, 'link')]) {
      const { files } = await readSurveyFolder(path);
      expect(new TextDecoder().decode(files.get('habitat.csv'))).toBe('text');
    }
  });

  it('a folder, or a link to nothing, is as if nothing was there', async () => {
    const folder = survey();
    mkdirSync(join(folder, 'habitat.csv'));
    symlinkSync('gone.csv', join(folder, 'transects.csv'));
    expect((await readSurveyFolder(folder)).files.size).toBe(0);
  });
});

it('reads the truth of the demo lake, which says more than its parameters', async () => {
  const truth = await readTruth(join(import.meta.dirname, '../../demo-lake'));
  expect(truth?.density.family).toBe('nb1'); // demo-lake/make
  expect(truth?.mussels).toBeGreaterThan(0);
});
