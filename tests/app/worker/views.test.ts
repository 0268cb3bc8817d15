/** What the worker hands to the page can be handed over: no function is among it. */

import { describe, expect, it } from 'vitest';
import { judgedView, resultView } from '../../../src/app/worker/views.ts';
import { estimateJudged, judge } from '../../../src/pipeline.ts';
import { baseSurvey, toFolder } from '../../helpers/base-survey.ts';

describe('a survey and its estimate', () => {
  it('are cloned from the worker to the page', async () => {
    const folder = toFolder(baseSurvey());
    const judged = await judge(folder);
    const done = await estimateJudged(judged);
    if (!done.ok) throw new Error('got no estimate, expected one');
    const views = [judgedView(judged, folder.files, folder.name), resultView(done.result, null)];
    expect(structuredClone(views)).toEqual(views);
  });
});
