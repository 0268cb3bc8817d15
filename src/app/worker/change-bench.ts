/** Surveys of one lake held against each other: loaded when that is asked for. */

import type { FeatureCollection } from 'geojson';
import type { ChangeMapInput } from '../../../shared/change.ts';
import { compareSurveys, type KeptSurveys } from '../../pipeline/compare.ts';
import type { Folder } from '../../pipeline.ts';
import { readChange } from '../../present/change.ts';
import { changeFiles } from '../../publish/change.ts';
import { changePictures } from '../../publish/change-pictures.ts';
import type { ChangeAsked, ChangeWorker } from '../change-contract.ts';
import { sameFiles } from '../state/files.ts';

/** Of the last comparison, for its files. */
let maps: (ChangeMapInput | null)[] = [];
/** Of the surveys of the last request, by their folders. */
let folders: Folder[] = [];
const kept: KeptSurveys = { judged: new Map(), estimated: new Map() };
/** only the last request counts, whenever it arrives */
let last = 0;

export const changeBench: ChangeWorker = {
  async compareSurveys(surveys, { answers, accepted, treated, turn }, progress) {
    last = Math.max(last, turn);
    folders = surveys.map((survey) => folders.find((known) => isSame(known, survey)) ?? survey);
    forgetOthers(new Set(folders));
    let about: string | null = null;
    const done = await compareSurveys(
      folders,
      {
        answered: { answers, accepted, acceptCertain: true },
        treated: treated.length === 0 ? null : placesFile(treated),
        withMaps: true,
      },
      {
        kept,
        progress: (step) => progress(step, step === 'change' ? null : about),
        async pause(survey) {
          about = survey;
          // lets a later request in, which is a message
          await new Promise((resolve) => setTimeout(resolve));
          if (turn < last) throw new Error('a later request took its place');
        },
      },
    );
    if (!done.ok) return done;
    const { maps: made, ...rest } = done;
    maps = made;
    const titles = done.file === null ? [] : readChange(done.file).pairs.map((p) => p.title);
    return { ...rest, pictures: changePictures(made, titles) };
  },
  changeFiles: async (file) => changeFiles(file, maps),
};

function isSame(a: Folder, b: Folder): boolean {
  return a.name === b.name && sameFiles(a.files, b.files);
}

/** Of surveys that were left out nothing is kept. */
function forgetOthers(held: ReadonlySet<Folder>): void {
  for (const of of [kept.judged, kept.estimated])
    for (const folder of of.keys()) if (!held.has(folder)) of.delete(folder);
}

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
