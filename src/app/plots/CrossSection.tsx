/**
 * A transect in section: the rope on the bed from its shallow start to its deep end, the substrate under it by pattern,
 * plants on it, and the clusters where they were detected, by whom and in which role. Depth runs down.
 */

import { type ReactNode, useId, useMemo, useRef } from 'react';
import type { Section, SectionPlant } from '../../present/section.ts';
import type { Units } from '../contract.ts';
import { type MarkShape, shapePath } from '../look/observer-shapes.ts';
import { SubstratePattern } from '../look/Patterns.tsx';
import { lengthTicks, type Tick } from './axis-ticks.ts';
import { PlantMark, SectionLegend } from './SectionLegend.tsx';
import { clusterRadiusPx, exaggeration, lifted } from './section-layout.ts';
import { useWidth } from './use-width.ts';
import './plots.css';

/** Depth may take this much; the drawing is as high as it needs. */
const DEPTH_PX = 190;
const MARGIN = { top: 26, right: 14, bottom: 66, left: 48 };
/** The pattern reaches this far into the ground; the ground goes on below for the names. */
const BED_PX = 24;
const GROUND_PX = 44;
/** A name needs this much room under its stretch, a letter. */
const LETTER_PX = 7.2;

interface Scales {
  x: (horizontalM: number) => number;
  y: (depthM: number) => number;
  widthPx: number;
  heightPx: number;
  bottomPx: number;
  exaggerated: number;
}

export function CrossSection({
  section,
  classes,
  shapes,
  largest,
  units,
  name,
}: {
  section: Section;
  /** analysis.substrates */
  classes: readonly string[];
  shapes: ReadonlyMap<string, MarkShape>;
  /** the survey's largest cluster: one scale for all transects */
  largest: number;
  units: Units;
  /** what the picture shows, for those who do not see it */
  name: string;
}) {
  const id = useId();
  const outer = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(outer);
  const s = widthPx > 0 ? scalesFor(section, widthPx) : null;
  const discs = useMemo(
    () => (widthPx > 0 ? discsOf(section, scalesFor(section, widthPx), largest) : []),
    [section, widthPx, largest],
  );
  return (
    <div ref={outer} className="section-plot">
      {s && (
        <svg
          width={widthPx}
          height={s.heightPx}
          viewBox={`0 0 ${widthPx} ${s.heightPx}`}
          role="img"
          aria-label={name}
        >
          <defs>
            {section.stretches.map((stretch, i) => (
              <SubstratePattern
                key={stretch.fromM}
                id={`${id}${i}`}
                substrate={stretch.substrate}
                classes={classes}
              />
            ))}
          </defs>
          <Axes s={s} section={section} units={units} />
          <Bed s={s} section={section} id={id} />
          <Plants s={s} plants={section.plants} />
          <Rope s={s} section={section} />
          {discs
            .filter((d) => d.bedY - d.y > d.r)
            .map(({ cluster, x, y, bedY }) => (
              <line
                key={cluster.detection}
                x1={x}
                x2={x}
                y1={y}
                y2={bedY}
                className="section-thread"
              />
            ))}
          {discs.map(({ cluster, x, y, r }) => (
            <path
              key={cluster.detection}
              transform={`translate(${x.toFixed(1)},${y.toFixed(1)})`}
              d={shapePath(shapes.get(cluster.observer) ?? 'circle', r)}
              className={`section-${cluster.role}`}
            />
          ))}
        </svg>
      )}
      {s && (
        <SectionLegend
          section={section}
          shapes={shapes}
          largest={largest}
          exaggerated={s.exaggerated}
        />
      )}
    </div>
  );
}

function scalesFor(section: Section, widthPx: number): Scales {
  const inner = Math.max(1, widthPx - MARGIN.left - MARGIN.right);
  const exaggerated = exaggeration(section, inner, DEPTH_PX);
  const perMetre = inner / Math.max(section.horizontalM, 1e-6);
  const bottomPx = MARGIN.top + section.deepestM * perMetre * exaggerated;
  return {
    x: (horizontalM) => MARGIN.left + horizontalM * perMetre,
    y: (depthM) => MARGIN.top + depthM * perMetre * exaggerated,
    widthPx,
    heightPx: Math.ceil(bottomPx + MARGIN.bottom),
    bottomPx,
    exaggerated,
  };
}

/** The largest stay on the bed; smaller ones that they would cover are lifted, and hang by a thread over their place. */
function discsOf(section: Section, s: Scales, largest: number) {
  const clusters = [...section.clusters].sort((a, b) => b.count - a.count);
  const discs = clusters.map((c) => ({
    x: s.x(c.horizontalM),
    y: s.y(c.depthM),
    r: clusterRadiusPx(c.count, largest),
  }));
  return lifted(discs).map((disc, i) => ({
    ...disc,
    bedY: discs[i].y,
    cluster: clusters[i],
  }));
}

/** Water, its surface, depth lines and lengths. */
function Axes({ s, section, units }: { s: Scales; section: Section; units: Units }) {
  const right = s.widthPx - MARGIN.right;
  const depths = lengthTicks(section.deepestM, 6, units);
  const lengths = lengthTicks(section.horizontalM, 6, units);
  const below = s.bottomPx + GROUND_PX + 16;
  return (
    <g className="plot-quiet">
      <polygon
        className="section-water"
        points={`${s.x(0)},${s.y(0)} ${s.x(section.horizontalM)},${s.y(0)} ${path(section.bed.toReversed(), s)}`}
      />
      {depths.map((t) => (
        <g key={t.m}>
          <line x1={MARGIN.left} x2={right} y1={s.y(t.m)} y2={s.y(t.m)} className="plot-rule" />
          <text x={MARGIN.left - 8} y={s.y(t.m)} textAnchor="end" dominantBaseline="central">
            {t.label}
          </text>
        </g>
      ))}
      {lengths.map((t: Tick, i) => (
        <text
          key={t.m}
          x={s.x(t.m)}
          y={below}
          textAnchor={i === 0 ? 'start' : s.x(t.m) > right - 16 ? 'end' : 'middle'}
        >
          {t.label}
        </text>
      ))}
      <text x={MARGIN.left} y={12}>
        start
      </text>
      <text x={right} y={12} textAnchor="end">
        end
      </text>
    </g>
  );
}

/** The ground under the rope: a strip of each substrate's pattern, its name below where there is room. */
function Bed({ s, section, id }: { s: Scales; section: Section; id: string }) {
  return section.stretches.map((stretch, i): ReactNode => {
    const top = path(stretch.points, s);
    const bottom = stretch.points
      .toReversed()
      .map((p) => `${s.x(p.horizontalM).toFixed(1)},${(s.y(p.depthM) + BED_PX).toFixed(1)}`)
      .join(' ');
    const [first, last] = [stretch.points[0], stretch.points.at(-1)!];
    const floor = s.bottomPx + GROUND_PX;
    const [left, right] = [s.x(first.horizontalM), s.x(last.horizontalM)];
    return (
      <g key={stretch.fromM}>
        <polygon
          className="section-ground"
          points={`${top} ${right.toFixed(1)},${floor} ${left.toFixed(1)},${floor}`}
        />
        <polygon points={`${top} ${bottom}`} fill={`url(#${id}${i})`} />
        {i > 0 && (
          <line className="section-edge" x1={left} x2={left} y1={s.y(first.depthM)} y2={floor} />
        )}
        {right - left >= stretch.label.length * LETTER_PX && (
          <text className="section-name" x={(left + right) / 2} y={floor - 7} textAnchor="middle">
            {stretch.label}
          </text>
        )}
      </g>
    );
  });
}

function Plants({ s, plants }: { s: Scales; plants: SectionPlant[] }) {
  return plants.map((p) => (
    <PlantMark key={p.horizontalM} x={s.x(p.horizontalM)} y={s.y(p.depthM)} score={p.score} />
  ));
}

/** The rope with its metre marks. */
function Rope({ s, section }: { s: Scales; section: Section }) {
  return (
    <g>
      <polyline className="section-rope" points={path(section.bed, s)} />
      {section.marks.map((p) => (
        <circle
          key={p.horizontalM}
          className="section-mark"
          cx={s.x(p.horizontalM)}
          cy={s.y(p.depthM)}
          r={1.6}
        />
      ))}
    </g>
  );
}

function path(points: readonly { horizontalM: number; depthM: number }[], s: Scales): string {
  return points
    .map((p) => `${s.x(p.horizontalM).toFixed(1)},${s.y(p.depthM).toFixed(1)}`)
    .join(' ');
}
