/** The one map of the application: it stays where it is while the stations change beside it. */

import 'maplibre-gl/dist/maplibre-gl.css'; // before ours, which overrules it
import './map.css';
import {
  type CSSProperties,
  lazy,
  Suspense,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { NO_DIVE_FILE } from '../../../shared/survey-files.ts';
import { spotWords } from '../../present/spot.ts';
import { meanDetection } from '../../present/transect-counts.ts';
import { treatmentCard } from '../../present/treatments.ts';
import { observerShapes } from '../look/observer-shapes.ts';
import { unitSystem } from '../shell/ui.tsx';
import { useApp } from '../state/app-context.tsx';
import { BaseMap } from './BaseMap.tsx';
import { boxOf, covered } from './covered.ts';
import { placesToFit, type Shown } from './features/map-content.ts';
import { Legend, useLegendOpen } from './Legend.tsx';
import { LakeMap, type MapEvents, type MapView as View } from './lake-map.ts';
import { PlaceCard, TransectCard } from './MapCards.tsx';
import { MapTools, ScaleBar } from './MapTools.tsx';
import { PrintMarks } from './PrintMarks.tsx';
import { useContent } from './use-content.ts';
import { useDensity } from './use-density.ts';
import { useFocus } from './use-focus.ts';
import { useInk } from './use-ink.ts';
import { usePointing } from './use-pointing.ts';
import { useThreshold } from './use-threshold.ts';

/** Few come to draw: loaded where it is done. */
const PlanWork = lazy(() => import('./next/PlanWork.tsx').then((m) => ({ default: m.PlanWork })));
const AreaWork = lazy(() => import('./areas/AreaWork.tsx').then((m) => ({ default: m.AreaWork })));

const HINT =
  'Arrow keys move the map under the crosshair, plus and minus zoom, Enter keeps the spot, Escape lets it go. What lies under the crosshair is read out. All that the map shows is also in the tables of the stations.';

export function MapView() {
  const { state } = useApp();
  const units = unitSystem(state.units);
  const ink = useInk();
  const holder = useRef<HTMLDivElement>(null);
  const events = useRef<MapEvents | null>(null);
  const [map, setMap] = useState<LakeMap | null>(null);
  const [failed, setFailed] = useState(false);
  const [legendOpen, setLegendOpen] = useLegendOpen();
  const [view, setView] = useState<View>({ lng: 0, lat: 0, zoom: 1 });
  const shown: Shown | null = state.result ?? state.judged;

  // biome-ignore lint/correctness/useExhaustiveDependencies: the map is made once; colours and events follow it
  useEffect(() => {
    const box = holder.current!;
    let made: LakeMap;
    try {
      const told: MapEvents = {
        moved: (v) => events.current?.moved(v),
        pointed: (at, pixel) => events.current?.pointed(at, pixel),
        pressed: (at, pixel) => events.current?.pressed(at, pixel),
        idle: (idle) => {
          box.dataset.map = idle ? 'idle' : 'busy';
        },
      };
      made = new LakeMap(box, ink, told, () => covered(box));
    } catch {
      setFailed(true);
      return;
    }
    made.canvas().setAttribute('aria-describedby', 'map-hint');
    setMap(made);
    return () => {
      setMap(null);
      made.remove();
    };
  }, []);

  const content = useContent(map, shown, state.judged, state.result, state.units);
  useEffect(() => void map?.setInk(ink), [map, ink]);
  useEffect(() => void map?.setStation(state.station), [map, state.station]);
  const threshold = useThreshold();
  const breaks = useDensity(map, threshold.perM2, (shown?.survey.detections.length ?? 0) > 0);
  useFocus(map, shown, content.zooms);
  const pointing = usePointing(map, shown, content.detected);

  events.current = {
    moved: setView,
    pointed: pointing.pointed,
    pressed: pointing.pressed,
    idle: () => {},
  };

  const places = useMemo(() => (shown ? placesToFit(shown) : null), [shown]);
  const fit = useCallback(() => {
    if (map && places) map.camera.fit(places);
  }, [map, places]);
  const name = state.work?.name ?? null;
  const fitted = useRef<string | null>(null);
  useEffect(() => {
    if (name === null) fitted.current = null;
    if (!map || !places || fitted.current === name) return;
    fitted.current = name;
    // no room beside the lake
    if (!map.camera.fit(places, false)) setLegendOpen(false);
  }, [map, places, name, setLegendOpen]);

  const observers = useMemo(() => observerShapes(shown?.survey.transects ?? []), [shown]);
  const size = map?.camera.size() ?? { width: 0, height: 0 };
  const legend = holder.current && boxOf('.map-legend', holder.current);
  return (
    <div className="map">
      <div
        className="map-paper"
        style={{ '--shape': size.width / Math.max(1, size.height) } as CSSProperties}
      >
        <div
          ref={holder}
          className="map-canvas"
          data-map="busy"
          data-view={`${view.lng},${view.lat},${view.zoom}`}
        />
        {map && <PrintMarks size={size} zoom={view.zoom} lat={view.lat} units={state.units} />}
      </div>
      <p id="map-hint" className="visually-hidden">
        {HINT}
      </p>
      {failed && (
        <p className="map-failed">
          This browser cannot draw the map: it needs WebGL 2, which is missing or switched off. All
          that the map shows is also in the tables of the stations.
        </p>
      )}
      {map && (
        <>
          <MapTools
            onZoom={(steps) => map.camera.zoomBy(steps)}
            onFit={fit}
            canFit={places !== null}
          />
          {shown && <ScaleBar zoom={view.zoom} lat={view.lat} units={state.units} />}
          {shown && (
            <Legend
              open={legendOpen}
              onOpen={setLegendOpen}
              station={state.station}
              dark={state.dark}
              breaks={breaks}
              surface={state.mapLook.surface}
              threshold={threshold}
              nothingDetected={shown.survey.detections.length === 0}
              labels={content.labels}
              classes={shown.analysis.substrates}
              observers={observers}
              near={view.zoom >= content.zooms.clusters}
              flagged={shown.placed.some((p) => p.residuals.some((r) => r.flagged))}
              planned={content.planned}
              findings={content.findings}
              treatments={shown.lake.treatments.length > 0}
              noDive={state.work?.files.has(NO_DIVE_FILE) ?? false}
              meanP={meanDetection(state.result)?.text ?? null}
            >
              <BaseMap map={map} />
            </Legend>
          )}
          {pointing.crosshair && <Crosshair />}
          {state.station === 'areas' && state.result !== null && (
            <Suspense fallback={null}>
              <AreaWork map={map} crosshair={pointing.crosshair} />
            </Suspense>
          )}
          {state.station === 'next' && (
            <Suspense fallback={null}>
              <PlanWork map={map} />
            </Suspense>
          )}
          <div className="map-cards">
            {pointing.mark && <SpotMark {...map.camera.pixelOf(pointing.mark)} />}
            {pointing.place && (
              <PlaceCard
                at={map.camera.pixelOf(pointing.place.at)}
                size={size}
                legend={legend}
                spot={pointing.place.spot && spotWords(pointing.place.spot, units)}
                area={
                  pointing.place.area === null || state.result === null
                    ? null
                    : treatmentCard(state.result, pointing.place.area, units)
                }
                onClose={pointing.place.pinned ? pointing.letGo : undefined}
              />
            )}
            {pointing.transect && (
              <TransectCard
                at={map.camera.pixelOf(pointing.transect.at)}
                size={size}
                legend={legend}
                title={pointing.transect.title}
                lines={pointing.transect.lines}
              />
            )}
          </div>
        </>
      )}
      <p role="status" className="visually-hidden">
        {pointing.said && spotWords(pointing.said, units).spoken}
      </p>
    </div>
  );
}

function Crosshair() {
  return (
    <svg
      className="map-crosshair"
      width="40"
      height="40"
      viewBox="-20 -20 40 40"
      aria-hidden="true"
    >
      <path d="M-18 0h12M6 0h12M0 -18v12M0 6v12" className="under" />
      <path d="M-18 0h12M6 0h12M0 -18v12M0 6v12" />
    </svg>
  );
}

function SpotMark({ x, y }: { x: number; y: number }) {
  return (
    <svg
      className="map-spot"
      style={{ translate: `${x}px ${y}px` }}
      width="20"
      height="20"
      viewBox="-10 -10 20 20"
      aria-hidden="true"
    >
      <circle r="7" className="under" />
      <circle r="7" />
    </svg>
  );
}
