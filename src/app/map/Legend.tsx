/** What the looks on the map mean, for the station at hand. */

import '../plots/plots.css';
import './legend.css';
import { type ReactNode, useEffect, useId, useState } from 'react';
import { term, terms } from '../../../shared/glossary.ts';
import { listed } from '../../../shared/words.ts';
import { classColour } from '../../present/ramp.ts';
import { substrateTint } from '../../present/substrate-tint.ts';
import type { Station, SurfaceName } from '../contract.ts';
import { type MarkShape, shapePath } from '../look/observer-shapes.ts';
import { HatchPattern, SubstratePattern } from '../look/Patterns.tsx';
import type { BedLabel } from './features/bed-label.ts';
import { noValueColour, SurfaceLegend, surfaceTitle } from './SurfaceLegend.tsx';
import { showsSurface } from './stations.ts';
import type { Threshold } from './use-threshold.ts';

export interface LegendContent {
  station: Station;
  dark: boolean;
  /** values at which the classes of the surface on the map begin; null without one */
  breaks: readonly number[] | null;
  /** which surface that is */
  surface: SurfaceName;
  threshold: Threshold;
  /** nothing was detected anywhere: the surface shows what was searched, and no density */
  nothingDetected: boolean;
  /** substrate labels on the map */
  labels: readonly BedLabel[];
  classes: readonly string[];
  observers: ReadonlyMap<string, MarkShape>;
  /** clusters are drawn one by one */
  near: boolean;
  flagged: boolean;
  planned: boolean;
  findings: boolean;
  treatments: boolean;
  /** places where nobody may dive are drawn */
  noDive: boolean;
  /** mean detection probability; null when it is not known */
  meanP: string | null;
}

/** Open where there is room for it; a phone that is turned has more or less of it. */
const ROOM = '(min-width: 900px)';

export function useLegendOpen(): [boolean, (open: boolean) => void] {
  const [open, setOpen] = useState(() => matchMedia(ROOM).matches);
  useEffect(() => {
    const room = matchMedia(ROOM);
    const follow = (): void => setOpen(room.matches);
    room.addEventListener('change', follow);
    return () => room.removeEventListener('change', follow);
  }, []);
  return [open, setOpen];
}

export function Legend({
  children,
  open,
  onOpen,
  ...content
}: LegendContent & { children: ReactNode; open: boolean; onOpen(open: boolean): void }) {
  const { station, surface, breaks, nothingDetected, threshold } = content;
  const density = showsSurface(station) && breaks !== null;
  return (
    <details className="map-legend" open={open} onToggle={(e) => onOpen(e.currentTarget.open)}>
      <summary>
        {density && !nothingDetected ? surfaceTitle(surface, threshold.perM2) : 'On the map'}
      </summary>
      {density && !nothingDetected && <SurfaceLegend breaks={breaks} threshold={threshold} />}
      <ul>
        {density && <Looks {...content} />}
        {(station === 'survey' || station === 'transects') && <Bed {...content} />}
        <Transects {...content} />
      </ul>
      {children}
    </details>
  );
}

function Looks({ dark, nothingDetected, surface }: LegendContent) {
  const id = useId();
  const [fadedId, hatchId] = [`${id}f`, `${id}h`];
  return (
    <>
      {nothingDetected && (
        <Row words="searched, nothing detected">
          <rect width="26" height="14" fill={classColour(0, dark, true)} />
        </Row>
      )}
      {!nothingDetected && surface === 'cv' && (
        <Row words="nothing detected there: no CV">
          <rect width="26" height="14" fill={noValueColour(dark)} />
        </Row>
      )}
      {!nothingDetected && surface === 'density' && (
        <Row words="less sure: CI over fivefold">
          <defs>
            <linearGradient id={fadedId}>
              {[2, 3, 4].map((k, i) => (
                <stop key={k} offset={i / 2} stopColor={classColour(k, dark, true)} />
              ))}
            </linearGradient>
          </defs>
          <rect width="26" height="14" fill={`url(#${fadedId})`} />
        </Row>
      )}
      <Row words={term('outsideHabitat')}>
        <defs>
          <HatchPattern id={hatchId} />
        </defs>
        <rect width="26" height="14" className="map-water" />
        <rect width="26" height="14" fill={`url(#${hatchId})`} />
      </Row>
      <Row words="no substrate on the map">
        <rect width="26" height="14" className="map-water" />
      </Row>
    </>
  );
}

function Bed({ labels: beds, classes, dark }: LegendContent) {
  const id = useId();
  return beds.map((bed, i) => (
    <Row key={bed.label} words={listed(bed.classes, 'and')}>
      <defs>
        <SubstratePattern id={`${id}${i}`} substrate={bed.classes} classes={classes} />
      </defs>
      <rect width="26" height="14" fill={substrateTint(bed.classes, classes, dark)} />
      <rect width="26" height="14" fill={`url(#${id}${i})`} />
    </Row>
  ));
}

function Transects({
  station,
  near,
  observers,
  flagged,
  planned,
  findings,
  treatments,
  noDive,
  meanP,
}: LegendContent) {
  return (
    <>
      {station === 'detection' && (
        <Row
          words={`${terms('detectedCluster')}${
            meanP === null
              ? ''
              : `; ring: estimated to be present (${term('detectionProbability')} ${meanP})`
          }`}
        >
          <circle cx="13" cy="7" r="6.5" className="map-ring" />
          <circle cx="13" cy="7" r="4" className="map-disc" />
        </Row>
      )}
      {station === 'density' && (
        <>
          <Row words="more detected than the model expects">
            <path d="M13 1l6 12h-12z" className="map-disc" />
          </Row>
          <Row words="fewer detected">
            <path d="M13 13l6 -12h-12z" className="map-open" />
          </Row>
        </>
      )}
      {station !== 'detection' && station !== 'density' && (
        <>
          <Row words={`${term('transect')} with ${terms('detection')}`}>
            <path d="M2 11L24 3" className="map-line" />
            <circle cx="13" cy="7" r="4" className="map-disc" />
          </Row>
          <Row words={`${term('transect')}, nothing detected`}>
            <path d="M2 11L24 3" className="map-line" />
            <circle cx="13" cy="7" r="4" className="map-open" />
          </Row>
        </>
      )}
      {planned && (station === 'survey' || station === 'transects') && (
        <Row words={`${term('plannedTransect')}, not searched yet`}>
          <circle cx="13" cy="7" r="5.5" className="map-planned" />
        </Row>
      )}
      {near && station !== 'survey' && <Observers observers={observers} />}
      {station === 'transects' && flagged && (
        <Row words="waypoint or bearing as written, where it does not fit">
          <path d="M2 11L24 3" className="map-caution" strokeDasharray="4 3" />
        </Row>
      )}
      {station === 'survey' && findings && (
        <Row words={`${terms('error')} and ${terms('notice')}`}>
          <circle cx="13" cy="7" r="6" className="map-finding" />
        </Row>
      )}
      {station === 'lake' && treatments && (
        <Row words={term('treatmentArea')}>
          <rect x="2" y="1" width="22" height="12" className="map-line" strokeDasharray="5 3" />
        </Row>
      )}
      {(station === 'next' || station === 'change') && (
        <Row words={`edge of the ${term('surveyedHabitat')}`}>
          <path d="M2 7H24" className="map-line" strokeWidth="1" />
        </Row>
      )}
      {station === 'next' && (
        <>
          <Row words={`${term('plannedTransect')}, from its start`}>
            <path d="M5 7H25" className="map-line" strokeWidth="3" />
            <circle cx="5" cy="7" r="4" className="map-open" />
          </Row>
          {noDive && (
            <Row words="nobody may dive here">
              <rect
                x="2"
                y="1"
                width="22"
                height="12"
                className="map-caution"
                strokeDasharray="4 3"
              />
            </Row>
          )}
        </>
      )}
      {station === 'areas' && (
        <>
          <Row words={term('treatmentArea')}>
            <rect x="2" y="1" width="22" height="12" className="map-line" />
          </Row>
          <Row words={term('proposedArea')}>
            <rect x="2" y="1" width="22" height="12" className="map-line" strokeDasharray="2 2" />
          </Row>
          <Row words={term('keepOut')}>
            <rect x="2" y="1" width="22" height="12" className="map-caution" />
          </Row>
        </>
      )}
    </>
  );
}

function Observers({ observers }: Pick<LegendContent, 'observers'>) {
  return (
    <li className="map-observers">
      <span>clusters, larger with more mussels, detected by</span>
      {[...observers].map(([name, shape]) => (
        <span key={name}>
          <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
            <path d={shapePath(shape, 4.5)} className="map-open" />
          </svg>
          {name}
        </span>
      ))}
    </li>
  );
}

function Row({ words, children }: { words: string; children: ReactNode }) {
  return (
    <li>
      <svg width="26" height="14" viewBox="0 0 26 14" aria-hidden="true">
        {children}
      </svg>
      {words}
    </li>
  );
}
