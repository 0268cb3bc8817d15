/** What is pointed at elsewhere on the page is shown on the map: a transect, a substrate, a finding. */

import { useEffect, useRef } from 'react';
import type { LngLat } from '../../../shared/survey.ts';
import type { JudgedView } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { transectInSection } from '../state/transect-in-section.ts';
import { placeOfFinding } from './features/findings.ts';
import { between } from './features/geo.ts';
import { placesToLookAt, type Shown } from './features/map-content.ts';
import type { LakeMap } from './lake-map.ts';
import type { TransectZooms } from './layer-parts.ts';

/** A small treatment area is not shown from nearer than this, unless transects are. */
const CLOSEST_AREA_ZOOM = 17;
/** What was chosen to be looked at is seen whole, however small beside an open legend. */
const LEAST_SCALE = 0.3;
/** Beyond the zoom at which clusters are drawn one by one. */
const CLUSTERS_SEEN = 0.3;

export function useFocus(map: LakeMap | null, shown: Shown | null, zooms: TransectZooms): void {
  const { focus, judged, station } = useApp().state;
  const content = useRef(shown);
  content.current = shown;
  const findings = useRef(judged);
  findings.current = judged;

  useEffect(() => {
    if (!map) return;
    const transect = content.current?.placed.find((p) => p.transect.transect === focus.transect);
    if (transect) map.camera.bringIntoView(between(transect.startLngLat, transect.endLngLat, 0.5));
  }, [map, focus.transect]);

  useEffect(() => void map?.focusTreatment(focus.treatment), [map, focus.treatment]);

  const zoomTo = useRef(zooms.clusters);
  zoomTo.current = zooms.clusters;
  useEffect(() => {
    const places = content.current && placesToLookAt(content.current, focus.lookAt);
    if (map && places)
      map.camera.fit(
        places,
        true,
        Math.max(CLOSEST_AREA_ZOOM, zoomTo.current + CLUSTERS_SEEN),
        LEAST_SCALE,
      );
  }, [map, focus.lookAt]);

  const placed = shown?.placed ?? null;
  const lit =
    station === 'transects' && placed !== null
      ? (transectInSection(placed, focus.transect)?.transect.transect ?? null)
      : focus.transect;
  useEffect(() => void map?.focusTransect(lit), [map, lit]);

  useEffect(() => void map?.focusBed(focus.substrate), [map, focus.substrate]);

  useEffect(() => {
    if (!map) return;
    void map.focusFinding(focus.finding);
    const at = focus.finding === null ? null : placeOf(findings.current, focus.finding);
    if (at) map.camera.bringIntoView(at);
  }, [map, focus.finding]);
}

function placeOf(judged: JudgedView | null, index: number): LngLat | null {
  const finding = judged?.findings[index];
  if (!judged || !finding) return null;
  const placedBy = new Map(judged.placed.map((p) => [p.transect.transect, p]));
  return placeOfFinding(finding, judged, placedBy);
}
