/** What the marks of a cross-section mean: observers in their roles, cluster sizes, plants, and how depth is drawn. */

import type { Section } from '../../present/section.ts';
import { type SectionKey, sectionKey } from '../../present/section-words.ts';
import { type MarkShape, shapePath } from '../look/observer-shapes.ts';
import { clusterRadiusPx } from './section-layout.ts';

const STEM_PX = 5;
const STEM_GAP_PX = 2.6;

export function SectionLegend({
  section,
  shapes,
  largest,
  exaggerated,
}: {
  section: Section;
  shapes: ReadonlyMap<string, MarkShape>;
  largest: number;
  /** how many times larger depth is drawn than length */
  exaggerated: number;
}) {
  const { observers, sizes, plants, scale } = sectionKey(section, exaggerated);
  return (
    <ul className="plot-legend quiet">
      {observers.map(({ observer, role, text }) => (
        <li key={role}>
          <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
            <path
              d={shapePath(shapes.get(observer) ?? 'circle', 4.2)}
              className={`section-${role}`}
            />
          </svg>
          {text}
        </li>
      ))}
      {sizes !== null && <SizeSample sizes={sizes} largest={largest} />}
      {plants !== null && (
        <li>
          <svg width="14" height="14" viewBox="-7 -12 14 14" aria-hidden="true">
            <PlantMark x={0} y={0} score={3} />
          </svg>
          {plants}
        </li>
      )}
      <li>{scale}</li>
    </ul>
  );
}

/** A cluster of one beside the transect's largest. */
function SizeSample({
  sizes: { most, text },
  largest,
}: {
  sizes: NonNullable<SectionKey['sizes']>;
  largest: number;
}) {
  const [one, many] = [clusterRadiusPx(1, largest), clusterRadiusPx(most, largest)];
  const gap = 4;
  return (
    <li>
      <svg width={2 * (one + many) + gap + 2} height={2 * many + 2} aria-hidden="true">
        <circle cx={one + 1} cy={many + 1} r={one} className="section-primary" />
        <circle cx={2 * one + gap + many + 1} cy={many + 1} r={many} className="section-primary" />
      </svg>
      {text}
    </li>
  );
}

/** As many stems as the score, standing at x, y. */
export function PlantMark({ x, y, score }: { x: number; y: number; score: number }) {
  const stems = Array.from({ length: score }, (_, k) => {
    const dx = (k - (score - 1) / 2) * STEM_GAP_PX;
    return `M${(x + dx).toFixed(1)},${y.toFixed(1)}l${(dx / 2).toFixed(1)},${-STEM_PX - score}`;
  });
  return <path className="section-plants" d={stems.join('')} />;
}
