/** Work on areas on the map: they are drawn there, the hand takes them, keys set corners, and a slate has the numbers. */

import './areas.css';
import { useEffect, useMemo, useRef } from 'react';
import type { LngLatPolygon } from '../../../../shared/survey.ts';
import { useApp } from '../../state/app-context.tsx';
import { proposedShapes, useDesk } from '../../state/area-desk.ts';
import { keepNewArea, keepShape, useAreas } from '../../state/use-areas.ts';
import type { LakeMap } from '../lake-map.ts';
import { areaShapes, type Proposed } from './area-shapes.ts';
import { type AreaHand, areaHand } from './hand.ts';
import { Slate } from './Slate.tsx';

const NONE: readonly Proposed[] = [];

export function AreaWork({ map, crosshair }: { map: LakeMap; crosshair: boolean }) {
  const { state, actions, core } = useApp();
  const areas = useAreas();
  const study = state.studies.areas;
  const looked = useDesk((d) => d.proposal);
  const proposed = useMemo(() => {
    const shape = study?.kind === 'areas' ? proposedShapes(study.areas)[looked] : undefined;
    return shape === undefined ? NONE : [shape];
  }, [study, looked]);
  useShapes(map, proposed);

  const latest = useRef({ areas, work: state.work, core });
  latest.current = { areas, work: state.work, core };
  const hand = useMemo(
    () =>
      areaHand({
        areas: () => latest.current.areas,
        pixelOf: (at) => map.camera.pixelOf(at),
        cursor: (cursor) => map.setCursor(cursor),
        fault: async (polygons: LngLatPolygon[]) => {
          const made = await latest.current.core.measureArea(polygons, null);
          return made.ok ? null : made.why;
        },
        keepNew: (file, polygons) => keepNewArea(latest.current.work, actions, file, polygons),
        keepShape: (chosen, polygons, how) =>
          keepShape(latest.current.work, actions, chosen, polygons, how),
      }),
    [map, actions],
  );
  useEffect(() => {
    const stop = map.listenForHand(hand);
    return () => {
      stop();
      map.setCursor('');
      hand.drop();
    };
  }, [map, hand]);
  useKeys(map, hand, crosshair);
  return <Slate areas={areas} hand={hand} />;
}

/** Once for each frame at most: the hand moves faster than the map draws. */
function useShapes(map: LakeMap, proposed: readonly Proposed[]): void {
  const { candidates, keptOut } = useAreas();
  const chosen = useDesk((d) => d.chosen);
  const corner = useDesk((d) => d.corner);
  const drawing = useDesk((d) => d.drawing);
  const moving = useDesk((d) => d.moving);
  useEffect(() => {
    const frame = requestAnimationFrame(() => {
      const hand = { chosen, corner, drawing, moving };
      void map.setShapes('areas', areaShapes(candidates, keptOut, proposed, hand));
    });
    return () => cancelAnimationFrame(frame);
  }, [map, candidates, keptOut, proposed, chosen, corner, drawing, moving]);
}

/** Enter sets a corner under the crosshair, and again there closes; without a crosshair it closes. */
function useKeys(map: LakeMap, hand: AreaHand, crosshair: boolean): void {
  const drawing = useDesk((d) => d.drawing !== null);
  const marked = useDesk((d) => d.corner !== null);
  useEffect(() => {
    if (!drawing && !marked) return;
    const onKey = (e: KeyboardEvent): void => {
      if (e.target instanceof HTMLElement && e.target.matches('input, select, textarea, button'))
        return;
      if (!answered(e)) return;
      e.preventDefault();
    };
    const answered = ({ key }: KeyboardEvent): boolean => {
      if (key === 'Delete' || key === 'Backspace') return hand.takeCorner();
      if (key === 'Escape') hand.drop();
      else if (key !== 'Enter' || !drawing) return false;
      else if (crosshair) hand.cornerAt(map.camera.centre());
      else hand.finish();
      return true;
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [map, hand, crosshair, drawing, marked]);
}
