/** A bed that was laid before is taken over where nothing it follows from has changed, and never otherwise. */

import { describe, expect, it } from 'vitest';
import { rememberedLake } from '../../src/app/worker/remembered-lake.ts';
import { type Judged, judge } from '../../src/pipeline.ts';
import { baseSurvey, type Texts, toFolder } from '../helpers/base-survey.ts';

describe('judging again', () => {
  /** The survey judged as it stands, and then with other texts, with one memory. */
  const twice = async (texts: Texts): Promise<{ earlier: Judged; again: Judged }> => {
    const lay = rememberedLake();
    const earlier = await judge(toFolder(baseSurvey()), undefined, lay);
    return { earlier, again: await judge(toFolder(texts), undefined, lay) };
  };

  const changed = (file: string, from: string | RegExp, to: string): Texts => {
    const texts = baseSurvey();
    const text = texts[file].replace(from, to);
    expect(text).not.toBe(texts[file]);
    return { ...texts, [file]: text };
  };
  /** Everything but the functions of the plane. */
  const plain = ({ findings, prepared }: Judged) =>
    JSON.stringify([findings, prepared && { ...prepared, plane: prepared.plane.proj }]);

  it.each([
    ['a count', changed('detections.csv', 'T1,primary,14.20,,1', 'T1,primary,14.20,,9')],
    [
      'a choice of the model',
      { ...baseSurvey(), 'analysis.json': '{"lake":"Minnow Pond","density":{"family":"nb1"}}' },
    ],
    ['nothing at all', baseSurvey()],
  ])('%s leaves the bed, and gives what judging alone gives', async (_, texts) => {
    const { earlier, again } = await twice(texts);
    expect(again.prepared!.bed).toBe(earlier.prepared!.bed);
    expect(plain(again)).toBe(plain(await judge(toFolder(texts))));
  });

  it.each([
    ['a depth line', changed('depth.geojson', '"depth_m": 3', '"depth_m": 3.5')],
    ['a patch of substrate', changed('substrate.geojson', '"sand"', '"rock"')],
    ['the cells', { ...baseSurvey(), 'analysis.json': '{"lake":"x","map":{"cell_m":4}}' }],
    ['the depths searched', changed('habitat.csv', /^T1,30,,,3.8/m, 'T1,30,,,4.4')],
    [
      'the classes',
      { ...baseSurvey(), 'analysis.json': '{"substrates":["rock","gravel","sand"]}' },
    ],
  ])('%s lays it anew, and gives what judging alone gives', async (_, texts) => {
    const { earlier, again } = await twice(texts);
    expect(again.prepared!.bed).not.toBe(earlier.prepared!.bed);
    expect(plain(again)).toBe(plain(await judge(toFolder(texts))));
  });

  it('a map that is gone leaves no bed', async () => {
    const { 'depth.geojson': _, ...texts } = baseSurvey();
    expect((await twice(texts)).again.prepared!.bed).toBeNull();
  });
});
