/** Areas that are drawn in the open survey: kept, reshaped, joined, removed and taken back, without another estimate. */

import { describe, expect, it } from 'vitest';
import type { LngLatPolygon } from '../../shared/survey.ts';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../shared/survey-files.ts';
import type { Station, Work } from '../../src/app/contract.ts';
import {
  type AreaEdit,
  addArea,
  areasIn,
  freeName,
  joinAreas,
  removeArea,
  renameArea,
  reshapeArea,
} from '../../src/app/state/area-edits.ts';
import { editWords } from '../../src/app/state/edit-words.ts';
import { areasBehind, initialState, type PageState, reduce } from '../../src/app/state/reducer.ts';
import { handMadeResult } from '../helpers/result.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const at = '2026-07-01T00:00:00Z';
const square = (lon: number, side = 0.01): LngLatPolygon => [
  [
    [lon, 45],
    [lon + side, 45],
    [lon + side, 45 + side],
    [lon, 45 + side],
    [lon, 45],
  ],
];
/** A file of somebody else: other members, other properties, a part in space. */
const GIVEN = JSON.stringify({
  type: 'FeatureCollection',
  name: 'plan',
  features: [
    {
      type: 'Feature',
      properties: { Name: 'North bay', crew: 3 },
      geometry: { type: 'Polygon', coordinates: square(-94) },
    },
    {
      type: 'Feature',
      properties: null,
      geometry: { type: 'MultiPolygon', coordinates: [square(-93), square(-92)] },
    },
    { type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [-94, 45] } },
  ],
});

function opened(station: Station = 'areas'): PageState {
  const work: Work = {
    name: 'pond',
    files: new Map([
      ['transects.csv', bytes('transect\nT1\n')],
      [TREATMENTS_FILE, bytes(GIVEN)],
    ]),
    edits: [],
  };
  const state = reduce(initialState('metric', 'light', false, station), {
    type: 'open',
    work,
    id: 'pond',
  });
  return { ...state, run: { state: 'idle' }, result: handMadeResult() as never };
}
const textOf = ({ work }: PageState, file: string = TREATMENTS_FILE) =>
  new TextDecoder().decode(work?.files.get(file) ?? bytes(''));
const listOf = (state: PageState, file?: string) => areasIn(textOf(state, file));
const make = (state: PageState, edit: AreaEdit) =>
  reduce(state, { type: 'edit', edit: { ...edit, at } });
const undo = (state: PageState) => reduce(state, { type: 'undo' });

describe('areas of a file', () => {
  it('have their names and polygons, and those without polygons are no areas', () => {
    expect(
      areasIn(GIVEN).map(({ place, name, polygons }) => [place, name, polygons.length]),
    ).toEqual([
      [1, 'North bay', 1],
      [2, 'area 2', 2],
    ]);
    expect(areasIn('')).toEqual([]);
    expect(areasIn('not JSON')).toEqual([]);
    expect(areasIn(JSON.stringify({ type: 'Polygon', coordinates: square(-94) }))).toHaveLength(1);
  });

  it('leave a name free for the next one', () => {
    expect(freeName(areasIn(GIVEN), 'Area')).toBe('Area 3');
    const taken = areasIn(GIVEN).map((area) => ({ ...area, name: 'Area 3' }));
    expect(freeName(taken, 'Area')).toBe('Area 4');
  });
});

describe('a drawn area', () => {
  it('is kept, reshaped and renamed; the others and what is said of them stay', () => {
    const drawn = make(opened(), addArea(TREATMENTS_FILE, GIVEN, 'Dock', [square(-91)], 'drawn'));
    expect(listOf(drawn).map((a) => a.name)).toEqual(['North bay', 'area 2', 'Dock']);
    const [north] = listOf(drawn);
    const moved = make(
      drawn,
      reshapeArea(TREATMENTS_FILE, textOf(drawn), north, [square(-90)], 'moved'),
    );
    const renamed = make(moved, renameArea(TREATMENTS_FILE, textOf(moved), listOf(moved)[0], 'N'));
    const { name, features } = JSON.parse(textOf(renamed));
    expect(name).toBe('plan');
    expect(features[0].properties).toEqual({ name: 'N', crew: 3 });
    expect(features[0].geometry.coordinates).toEqual(square(-90));
    expect(features.slice(1, 3)).toEqual(JSON.parse(GIVEN).features.slice(1));
    expect(renamed.work!.edits.map((e) => editWords(e))).toEqual([
      'treatments.geojson: "Dock" drawn',
      'treatments.geojson: "North bay" moved',
      'treatments.geojson: "North bay" renamed to "N"',
    ]);
  });

  it('is taken back step by step, and made again', () => {
    const start = opened();
    const drawn = make(start, addArea(TREATMENTS_FILE, GIVEN, 'Dock', [square(-91)], 'drawn'));
    const gone = make(drawn, removeArea(TREATMENTS_FILE, listOf(drawn)[0]));
    expect(listOf(gone).map((a) => a.name)).toEqual(['area 1', 'Dock']);
    expect(listOf(undo(gone))).toEqual(listOf(drawn));
    const back = undo(undo(gone));
    expect(JSON.parse(textOf(back))).toEqual(JSON.parse(GIVEN));
    expect(listOf(reduce(back, { type: 'redo' }))).toEqual(listOf(drawn));
  });

  it('is joined with another in one step', () => {
    const start = opened();
    const [a, b] = listOf(start);
    const both = make(start, joinAreas(TREATMENTS_FILE, GIVEN, a, b, [square(-94, 2)]));
    expect(listOf(both).map((one) => one.name)).toEqual(['North bay']);
    expect(textOf(undo(both))).toBe(GIVEN);
  });

  it('goes with its file when it was the only one', () => {
    const edit = addArea(KEEP_OUT_FILE, '', 'Intake', [square(-91)], 'drawn');
    const one = make(opened(), edit);
    expect(listOf(one, KEEP_OUT_FILE)).toHaveLength(1);
    const none = make(one, removeArea(KEEP_OUT_FILE, listOf(one, KEEP_OUT_FILE)[0]));
    expect(none.work!.files.has(KEEP_OUT_FILE)).toBe(false);
    expect(listOf(undo(none), KEEP_OUT_FILE)).toHaveLength(1);
  });

  it('asks for an estimate when the station is left, and not before', () => {
    const start = opened();
    const drawn = make(start, addArea(TREATMENTS_FILE, GIVEN, 'Dock', [square(-91)], 'drawn'));
    expect(drawn.run.state).toBe('idle');
    expect(areasBehind(drawn)).toBe(true);
    const left = reduce(drawn, { type: 'go', station: 'lake' });
    expect(left.run.state).toBe('working');
    expect(areasBehind(left)).toBe(false);
    // back where it was: nothing to estimate
    expect(reduce(start, { type: 'go', station: 'lake' }).run.state).toBe('idle');
  });

  it('asks for one at once where numbers of the file are shown', () => {
    const state = opened('lake');
    const edit = addArea(TREATMENTS_FILE, GIVEN, 'Dock', [square(-91)], 'drawn');
    expect(make(state, edit).run.state).toBe('working');
  });
});
