/** Rope, column and map: where they stand, and which station the column shows. The map is never taken down. */

import { type ComponentType, lazy, Suspense, useEffect, useRef, useState } from 'react';
import type { Station } from './contract.ts';
import { DropTarget } from './shell/DropTarget.tsx';
import { ErrorBoundary } from './shell/ErrorBoundary.tsx';
import { LakeName } from './shell/LakeName.tsx';
import { Landing } from './shell/Landing.tsx';
import { NewVersion } from './shell/NewVersion.tsx';
import { PrintFoot, PrintHead } from './shell/PrintFrame.tsx';
import { ProgressLine } from './shell/ProgressLine.tsx';
import { Rope } from './shell/Rope.tsx';
import { RopeOnBed } from './shell/RopeOnBed.tsx';
import { Standing } from './shell/Standing.tsx';
import { Trouble } from './shell/Trouble.tsx';
import { useApp } from './state/app-context.tsx';
import { useBringIn } from './state/bring-in.ts';
import { usePrintKey } from './state/print-on-white.ts';
import { useUndoKeys } from './state/undo-keys.ts';
import { SurveyStation } from './stations/survey/SurveyStation.tsx';

const FieldLog = lazy(() =>
  import('./stations/field/FieldLog.tsx').then((m) => ({ default: m.FieldLog })),
);

const MapView = lazy(() => import('./map/MapView.tsx').then((m) => ({ default: m.MapView })));

const BringInFiles = lazy(() =>
  import('./stations/bring-in/BringInFiles.tsx').then((m) => ({ default: m.BringInFiles })),
);

const COLUMNS: Record<Station, ComponentType> = {
  survey: SurveyStation,
  transects: lazy(() =>
    import('./stations/transects/TransectsStation.tsx').then((m) => ({
      default: m.TransectsStation,
    })),
  ),
  detection: lazy(() =>
    import('./stations/detection/DetectionStation.tsx').then((m) => ({
      default: m.DetectionStation,
    })),
  ),
  density: lazy(() =>
    import('./stations/density/DensityStation.tsx').then((m) => ({ default: m.DensityStation })),
  ),
  lake: lazy(() =>
    import('./stations/lake/LakeStation.tsx').then((m) => ({ default: m.LakeStation })),
  ),
  areas: lazy(() =>
    import('./stations/areas/AreasStation.tsx').then((m) => ({ default: m.AreasStation })),
  ),
  next: lazy(() =>
    import('./stations/next/NextStation.tsx').then((m) => ({ default: m.NextStation })),
  ),
  change: lazy(() =>
    import('./stations/change/ChangeStation.tsx').then((m) => ({ default: m.ChangeStation })),
  ),
};

export function App() {
  const { state, actions } = useApp();
  useUndoKeys(actions);
  usePrintKey(state.dark && state.work !== null, actions.print);
  const open = state.work !== null;
  const bringsIn = useBringIn().shown;
  const Column = COLUMNS[state.station];
  const column = useRef<HTMLElement>(null);
  const station = useRef(state.station);

  useEffect(() => {
    if (station.current === state.station) return;
    station.current = state.station;
    column.current?.scrollTo(0, 0);
    column.current?.focus({ preventScroll: true });
  }, [state.station]);

  useEffect(() => {
    const lake = state.judged?.analysis.lake;
    document.title = lake ? `${lake} · Shoalwise` : 'Shoalwise';
  }, [state.judged]);

  if (state.log && state.work !== null)
    return (
      <ErrorBoundary>
        <Suspense fallback={<p className="quiet">…</p>}>
          <FieldLog work={state.work} />
        </Suspense>
      </ErrorBoundary>
    );
  return (
    <div
      className="shell"
      data-station={state.station}
      data-run={state.run.state}
      data-brings-in={bringsIn || undefined}
    >
      <DropTarget />
      <PrintHead />
      <Rope />
      <main ref={column} className="column" tabIndex={-1} aria-busy={state.run.state === 'working'}>
        <div className="column-inner">
          <Trouble />
          <NewVersion />
          <Standing />
          {bringsIn ? (
            <ErrorBoundary>
              <Suspense fallback={<p className="quiet">…</p>}>
                <BringInFiles />
              </Suspense>
            </ErrorBoundary>
          ) : open ? (
            <>
              <LakeName />
              <ErrorBoundary key={state.station}>
                <Suspense fallback={<p className="quiet">…</p>}>
                  <Column />
                </Suspense>
              </ErrorBoundary>
            </>
          ) : (
            <Landing />
          )}
        </div>
      </main>
      <section className="map-area" aria-label="Map">
        <ProgressLine />
        <KeptMap open={open} />
        {!open && <RopeOnBed />}
      </section>
      <PrintFoot />
    </div>
  );
}

/** Fetched when there is a survey to show, then kept for as long as the page stands. */
function KeptMap({ open }: { open: boolean }) {
  const [wanted, setWanted] = useState(open);
  if (open && !wanted) setWanted(true);
  if (!wanted) return null;
  return (
    <ErrorBoundary>
      <Suspense fallback={null}>
        <MapView />
      </Suspense>
    </ErrorBoundary>
  );
}
