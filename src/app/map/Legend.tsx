/** What the looks on the map mean, for the station at hand. */

import '../plots/plots.css';
import { type ReactNode, useEffect, useId, useState } from 'react';
import type { Station } from '../contract.ts';
import { type MarkShape, shapePath } from '../look/observer-shapes.ts';
import { HatchPattern, SubstratePattern } from '../look/Patterns.tsx';
import { CLASS_BREAKS, classColour, RAMP } from '../look/ramp.ts';

export interface LegendContent {
  station: Station;
  dark: boolean;
  /** a density surface is on the map */
  surface: boolean;
  /** nothing was found anywhere: the surface shows where divers searched, and no density */
  nothingFound: boolean;
  /** substrate labels on the map */
  labels: readonly string[];
  classes: readonly string[];
  divers: ReadonlyMap<string, MarkShape>;
  /** clusters are drawn one by one */
  near: boolean;
  flagged: boolean;
  faults: boolean;
  treatments: boolean;
  /** mean share of clusters seen, in words; null when it is not known */
  share: string | null;
}

/** Open where there is room for it; a phone that is turned has more or less of it. */
const ROOM = '(min-width: 900px)';

export function Legend({ children, ...content }: LegendContent & { children: ReactNode }) {
  const [open, setOpen] = useState(() => matchMedia(ROOM).matches);
  useEffect(() => {
    const room = matchMedia(ROOM);
    const follow = (): void => setOpen(room.matches);
    room.addEventListener('change', follow);
    return () => room.removeEventListener('change', follow);
  }, []);
  const { station, surface, nothingFound } = content;
  const density = (station === 'lake' || station === 'density') && surface;
  return (
    <details className="map-legend" open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{density && !nothingFound ? 'Mussels per m²' : 'On the map'}</summary>
      {density && !nothingFound && <Ramp dark={content.dark} />}
      <ul>
        {density && <Looks dark={content.dark} nothingFound={nothingFound} />}
        {(station === 'survey' || station === 'transects') && <Bed {...content} />}
        <Ropes {...content} />
      </ul>
      {children}
    </details>
  );
}

function Ramp({ dark }: { dark: boolean }) {
  const edges = CLASS_BREAKS.join(', ');
  return (
    <div className="map-ramp">
      <div role="img" aria-label={`Seven classes from pale to dark, parted at ${edges}`}>
        {RAMP.light.map((_, k) => (
          <span key={RAMP.light[k]} style={{ background: classColour(k, dark) }} />
        ))}
      </div>
      <div aria-hidden="true" className="map-ramp-edges">
        {CLASS_BREAKS.map((edge) => (
          <span key={edge}>{edge}</span>
        ))}
      </div>
    </div>
  );
}

function Looks({ dark, nothingFound }: { dark: boolean; nothingFound: boolean }) {
  const id = useId();
  const [fadedId, hatchId] = [`${id}f`, `${id}h`];
  return (
    <>
      {nothingFound ? (
        <Row words="searched, none found">
          <rect width="26" height="14" fill={classColour(0, dark, true)} />
        </Row>
      ) : (
        <Row words="less sure: interval over fivefold">
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
      <Row words="mapped, not searched">
        <defs>
          <HatchPattern id={hatchId} />
        </defs>
        <rect width="26" height="14" className="map-water" />
        <rect width="26" height="14" fill={`url(#${hatchId})`} />
      </Row>
      <Row words="not mapped">
        <rect width="26" height="14" className="map-water" />
      </Row>
    </>
  );
}

function Bed({ labels, classes }: LegendContent) {
  const id = useId();
  return labels.map((label, i) => (
    <Row key={label} words={label.replaceAll('+', ' and ')}>
      <defs>
        <SubstratePattern id={`${id}${i}`} substrate={label.split('+')} classes={classes} />
      </defs>
      <rect width="26" height="14" className="map-water" />
      <rect width="26" height="14" fill={`url(#${id}${i})`} />
    </Row>
  ));
}

function Ropes({ station, near, divers, flagged, faults, treatments, share }: LegendContent) {
  return (
    <>
      {station === 'detection' && (
        <Row
          words={`clusters found${share === null ? '' : `; ring: estimated to be there, ${share}`}`}
        >
          <circle cx="13" cy="7" r="6.5" className="map-ring" />
          <circle cx="13" cy="7" r="4" className="map-disc" />
        </Row>
      )}
      {station === 'density' && (
        <>
          <Row words="more found than the model expects">
            <path d="M13 1l6 12h-12z" className="map-disc" />
          </Row>
          <Row words="fewer found">
            <path d="M13 13l6 -12h-12z" className="map-open" />
          </Row>
        </>
      )}
      {station !== 'detection' && station !== 'density' && (
        <>
          <Row words="rope with mussels found">
            <path d="M2 11L24 3" className="map-line" />
            <circle cx="13" cy="7" r="4" className="map-disc" />
          </Row>
          <Row words="rope, none found">
            <path d="M2 11L24 3" className="map-line" />
            <circle cx="13" cy="7" r="4" className="map-open" />
          </Row>
        </>
      )}
      {near && station !== 'survey' && <Divers divers={divers} />}
      {station === 'transects' && flagged && (
        <Row words="waypoint or bearing as written, where it does not fit">
          <path d="M2 11L24 3" className="map-caution" strokeDasharray="4 3" />
        </Row>
      )}
      {station === 'survey' && faults && (
        <Row words="faults and remarks">
          <circle cx="13" cy="7" r="6" className="map-fault" />
        </Row>
      )}
      {station === 'lake' && treatments && (
        <Row words="candidate treatment area">
          <rect x="2" y="1" width="22" height="12" className="map-line" strokeDasharray="5 3" />
        </Row>
      )}
    </>
  );
}

function Divers({ divers }: Pick<LegendContent, 'divers'>) {
  return (
    <li className="map-divers">
      <span>clusters, larger with more mussels, found by</span>
      {[...divers].map(([name, shape]) => (
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
