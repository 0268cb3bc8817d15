/** The plan on the map: its dives, and places where nobody may dive. */

import { useEffect } from 'react';
import type { PlanFile } from '../../../../shared/planning.ts';
import { usePlanDesk } from '../../state/plan-desk.ts';
import { lineString, point, polygon, type Shapes, shapes } from '../features/geo.ts';
import type { LakeMap } from '../lake-map.ts';

export function PlanWork({ map }: { map: LakeMap }) {
  const { made } = usePlanDesk();
  const plan = made?.ok ? made.plan : null;
  useEffect(() => {
    void map.setShapes('areas', plan === null ? shapes([]) : planShapes(plan));
  }, [map, plan]);
  return null;
}

/** `kind`: `no-dive`, `plan`, `plan-start` */
export function planShapes({ transects, no_dive }: PlanFile): Shapes {
  return shapes([
    ...no_dive.map((rings) => polygon(rings, { kind: 'no-dive' })),
    ...transects.map((t) => lineString([t.start, t.end], { kind: 'plan', name: t.transect })),
    ...transects.map((t) => point(t.start, { kind: 'plan-start', name: t.transect })),
  ]);
}
