/** The line that says what is being done; expected words by hand. */

import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSurveyFolder } from '../../src/cli/folder.ts';
import { progressLine } from '../../src/cli/progress.ts';
import { estimateSurvey, rehearseSurvey } from '../../src/pipeline.ts';
import { stepWords } from '../../src/present/steps.ts';
import { keepingTerminal } from './terminal.ts';

const ERASE = '\r\u001b[2K';

describe('the progress line', () => {
  it('says the step in words and its share, and is gone in the end', () => {
    const terminal = { ...keepingTerminal(), live: true };
    const progress = progressLine(terminal, 'lake');
    progress.report('read', 0);
    progress.report('fit', 0.254);
    progress.report('fit', 0.2541);
    progress.clear();
    expect(terminal.stderr).toBe(
      `${ERASE}lake: Reading the tables and maps …${ERASE}lake: Fitting density and detection 25 % …${ERASE}`,
    );
  });

  it('is not there where nobody looks', () => {
    const terminal = keepingTerminal();
    const progress = progressLine(terminal, 'lake');
    progress.report('read', 0);
    progress.clear();
    expect(terminal.stderr).toBe('');
  });
});

it('every step that is reported has words', async () => {
  const folder = await readSurveyFolder(
    join(import.meta.dirname, '../reference-lakes/distance-hazardrate-full'),
  );
  const steps = new Set<string>();
  const progress = (step: string) => void steps.add(step);
  await estimateSurvey(folder, { progress, replicates: 2 });
  await rehearseSurvey(folder, 2, null, { progress });
  expect(steps.size).toBeGreaterThan(6);
  expect([...steps].filter((step) => stepWords(step) === step)).toEqual([]);
});
