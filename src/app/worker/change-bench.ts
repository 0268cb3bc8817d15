/** Surveys of one lake held against each other: loaded when that is asked for. */

import type { FeatureCollection } from 'geojson';
import { compareSurveys } from '../../pipeline/compare.ts';
import { changeFiles } from '../../publish/change.ts';
import type { ChangeAsked, ChangeWorker } from '../change-contract.ts';

export const changeBench: ChangeWorker = {
  async compareSurveys(surveys, { answers, accepted, treated }, progress) {
    return compareSurveys(
      surveys,
      {
        answered: { answers, accepted, acceptCertain: true },
        treated: treated.length === 0 ? null : placesFile(treated),
      },
      { progress: (step) => progress(step) },
    );
  },
  changeFiles: async (file) => changeFiles(file),
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
