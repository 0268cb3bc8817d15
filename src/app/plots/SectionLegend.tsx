/** What the marks of a cross-section mean: divers and passes, cluster sizes, plants, and how depth is drawn. */

import { visible } from '../../../shared/words.ts';
import { type MarkShape, shapePath } from '../look/observer-shapes.ts';
import type { Section, SectionCluster } from './section-data.ts';
import { clusterRadiusPx, exaggerationWords } from './section-words.ts';

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
  const finders = whoFound(section.clusters);
  const most = section.clusters.reduce((a, c) => Math.max(a, c.count), 0);
  return (
    <ul className="plot-legend quiet">
      {finders.map(({ diver, role }) => (
        <li key={`${diver} ${role}`}>
          <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
            <path
              d={shapePath(shapes.get(diver) ?? 'circle', 4.2)}
              className={role === 'primary' ? 'section-first' : 'section-second'}
            />
          </svg>
          {visible(diver)}, {role === 'primary' ? 'searched first' : 'searched second'}
        </li>
      ))}
      {most > 1 && <SizeSample most={most} largest={largest} />}
      {section.plants.length > 0 && (
        <li>
          <svg width="14" height="14" viewBox="-7 -12 14 14" aria-hidden="true">
            <PlantMark x={0} y={0} score={3} />
          </svg>
          plants, a stem for each point of cover
        </li>
      )}
      <li>
        {exaggerationWords(exaggerated)}; marks on the rope every {section.markStepM} m
      </li>
    </ul>
  );
}

/** A cluster of one beside the rope's largest. */
function SizeSample({ most, largest }: { most: number; largest: number }) {
  const [one, many] = [clusterRadiusPx(1, largest), clusterRadiusPx(most, largest)];
  const gap = 4;
  return (
    <li>
      <svg width={2 * (one + many) + gap + 2} height={2 * many + 2} aria-hidden="true">
        <circle cx={one + 1} cy={many + 1} r={one} className="section-first" />
        <circle cx={2 * one + gap + many + 1} cy={many + 1} r={many} className="section-first" />
      </svg>
      1 and {most.toLocaleString('en')} in a cluster
    </li>
  );
}

function whoFound(clusters: readonly SectionCluster[]) {
  return (['primary', 'secondary'] as const).flatMap((role) => {
    const own = clusters.filter((c) => c.role === role);
    return own.length === 0 ? [] : [{ role, diver: own[0]!.diver }];
  });
}

/** As many stems as the score, standing at x, y. */
export function PlantMark({ x, y, score }: { x: number; y: number; score: number }) {
  const stems = Array.from({ length: score }, (_, k) => {
    const dx = (k - (score - 1) / 2) * STEM_GAP_PX;
    return `M${(x + dx).toFixed(1)},${y.toFixed(1)}l${(dx / 2).toFixed(1)},${-STEM_PX - score}`;
  });
  return <path className="section-plants" d={stems.join('')} />;
}
