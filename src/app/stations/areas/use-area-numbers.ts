/** Has the worker measure areas: the one in hand at every move, all of them whenever one has changed. */

import { useEffect, useMemo } from 'react';
import type { LngLatPolygon } from '../../../../shared/survey.ts';
import { closedArea, isArea } from '../../map/areas/corners.ts';
import { latestOnly } from '../../map/latest-only.ts';
import { useApp } from '../../state/app-context.tsx';
import { type Desk, deskNow, onDesk, setDesk, useDesk } from '../../state/area-desk.ts';
import type { PlacedArea } from '../../state/area-edits.ts';

const failed = (error: unknown): void => console.error('The areas were not measured.', error);

export function useAreaNumbers(candidates: readonly PlacedArea[]): void {
  const { core } = useApp();
  const layerM = useDesk((d) => d.layerM);
  const measureAll = useMemo(
    () =>
      latestOnly(async (asked: { of: readonly PlacedArea[]; layerM: number | null }) => {
        const areas = asked.of.map(({ name, polygons }) => ({ name, polygons }));
        const made = await core.holdAreas(areas, asked.layerM);
        setDesk({ held: { of: asked.of, made } });
      }, failed),
    [core],
  );
  useEffect(() => measureAll({ of: candidates, layerM }), [measureAll, candidates, layerM]);

  useEffect(() => {
    const measure = latestOnly(async (polygons: LngLatPolygon[]) => {
      const live = await core.measureArea(polygons, deskNow().layerM);
      setDesk({ live });
    }, failed);
    let last: unknown = null;
    return onDesk(() => {
      const { moving, drawing } = deskNow();
      const now = moving ?? drawing;
      if (now === last) return;
      last = now;
      const shape = shapeInHand({ moving, drawing });
      if (shape !== null) measure(shape);
    });
  }, [core]);
}

/** What would be kept if the hand let go now; null where that is no area yet. */
function shapeInHand({
  moving,
  drawing,
}: Pick<Desk, 'moving' | 'drawing'>): LngLatPolygon[] | null {
  if (moving !== null || drawing === null) return moving;
  const { corners, pointer } = drawing;
  const line = pointer === null ? corners : [...corners, pointer];
  return isArea(line) ? closedArea(line) : null;
}
