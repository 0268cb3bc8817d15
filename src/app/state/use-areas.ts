/** The areas of the open survey as they are now, also where the estimate was made of earlier ones. */

import { useMemo } from 'react';
import type { LngLatPolygon } from '../../../shared/survey.ts';
import { KEEP_OUT_FILE, TREATMENTS_FILE } from '../../../shared/survey-files.ts';
import type { AppActions, Work } from '../contract.ts';
import { useApp } from './app-context.tsx';
import { type ChosenArea, chooseArea, useDesk } from './area-desk.ts';
import {
  type AreaFile,
  addArea,
  areasIn,
  freeName,
  type PlacedArea,
  reshapeArea,
} from './area-edits.ts';
import { decode } from './edits.ts';

export interface Areas {
  /** treatment areas */
  candidates: PlacedArea[];
  keptOut: PlacedArea[];
}

export function useAreas(): Areas {
  const { work } = useApp().state;
  const candidates = useAreasOf(work, TREATMENTS_FILE);
  const keptOut = useAreasOf(work, KEEP_OUT_FILE);
  return useMemo(() => ({ candidates, keptOut }), [candidates, keptOut]);
}

function useAreasOf(work: Work | null, file: AreaFile): PlacedArea[] {
  const bytes = work?.files.get(file);
  return useMemo(() => (bytes === undefined ? [] : areasIn(decode(bytes))), [bytes]);
}

/** The area that is chosen; null when none is, or when it is gone. */
export function useChosenArea(areas: Areas): { chosen: ChosenArea; area: PlacedArea } | null {
  const chosen = useDesk((d) => d.chosen);
  if (chosen === null) return null;
  const area = areaAt(areas, chosen);
  return area === null ? null : { chosen, area };
}

export function areaAt(areas: Areas, { file, place }: ChosenArea): PlacedArea | null {
  return listOf(areas, file).find((area) => area.place === place) ?? null;
}

export function listOf({ candidates, keptOut }: Areas, file: AreaFile): PlacedArea[] {
  return file === KEEP_OUT_FILE ? keptOut : candidates;
}

export function textOfFile(work: Work | null, file: AreaFile): string {
  const bytes = work?.files.get(file);
  return bytes === undefined ? '' : decode(bytes);
}

/** What drawing and moving end with: the survey changes, and the area is the chosen one. */
export function keepNewArea(
  work: Work | null,
  { edit }: Pick<AppActions, 'edit'>,
  file: AreaFile,
  polygons: readonly LngLatPolygon[],
  given: { name: string; how: string } | null = null,
): void {
  const text = textOfFile(work, file);
  const areas = areasIn(text);
  const stem = file === KEEP_OUT_FILE ? 'Keep out' : 'Area';
  const name = given?.name ?? freeName(areas, stem);
  const made = addArea(file, text, name, polygons, given?.how ?? 'drawn');
  edit(made);
  chooseArea({ file, place: made.row ?? 0 });
}

export function keepShape(
  work: Work | null,
  { edit }: Pick<AppActions, 'edit'>,
  { file, place }: ChosenArea,
  polygons: readonly LngLatPolygon[],
  how: string,
): void {
  const text = textOfFile(work, file);
  const area = areasIn(text).find((a) => a.place === place);
  if (area !== undefined) edit(reshapeArea(file, text, area, polygons, how));
}
