/** Surveys of one lake held against each other: loaded when that is asked for. */

import type { FeatureCollection } from 'geojson';
import type { ChangeMapInput } from '../../../shared/change.ts';
import { compareSurveys } from '../../pipeline/compare.ts';
import { readChange } from '../../present/change.ts';
import { changeFiles } from '../../publish/change.ts';
import { changePictures } from '../../publish/change-pictures.ts';
import type { ChangeAsked, ChangeWorker } from '../change-contract.ts';

/** Of the last comparison, for its files. */
let maps: ChangeMapInput[] = [];

export const changeBench: ChangeWorker = {
  async compareSurveys(surveys, { answers, accepted, treated }, progress) {
    const done = await compareSurveys(
      surveys,
      {
        answered: { answers, accepted, acceptCertain: true },
        treated: treated.length === 0 ? null : placesFile(treated),
        withMaps: true,
      },
      { progress: (step) => progress(step) },
    );
    if (!done.ok) return done;
    const { maps: made, ...rest } = done;
    maps = made;
    const titles = done.file === null ? [] : readChange(done.file).pairs.map((p) => p.title);
    return { ...rest, pictures: changePictures(made, titles) };
  },
  changeFiles: async (file) => changeFiles(file, maps),
};

/** As the command line would be handed them. */
function placesFile(treated: ChangeAsked['treated']): { name: string; bytes: Uint8Array } {
  const collection: FeatureCollection = {
    type: 'FeatureCollection',
    features: treated.map(({ name, polygons }) => ({
      type: 'Feature',
      properties: { name },
      geometry: { type: 'MultiPolygon', coordinates: polygons },
    })),
  };
  return { name: 'treated', bytes: new TextEncoder().encode(JSON.stringify(collection)) };
}
