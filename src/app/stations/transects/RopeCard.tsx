/** One transect: its section, how to go on to the next, and what its waypoints and bearing say. */

import { useMemo } from 'react';
import type { PlacedTransect } from '../../../../shared/survey.ts';
import { formatDepth, formatDepthBand } from '../../../../shared/units.ts';
import { listed, visible } from '../../../../shared/words.ts';
import type { JudgedView, Units } from '../../contract.ts';
import { observerShapes } from '../../look/observer-shapes.ts';
import { lengthText } from '../../plots/axis-ticks.ts';
import { CrossSection } from '../../plots/CrossSection.tsx';
import { type Section, type SectionCluster, sectionOf } from '../../plots/section-data.ts';
import { DataTable, Figure, unitSystem } from '../../shell/ui.tsx';
import { neighbour, placingWords } from './transect-facts.ts';

export function RopeCard({
  judged,
  placed,
  labels,
  onChoose,
  units,
}: {
  judged: JudgedView;
  placed: PlacedTransect;
  /** all transects, in the order in which one goes through them */
  labels: string[];
  onChoose(transect: string): void;
  units: Units;
}) {
  const { survey, segments, analysis } = judged;
  const shapes = useMemo(() => observerShapes(survey.transects), [survey]);
  const section = useMemo(
    () => sectionOf(placed, segments, survey.detections),
    [placed, segments, survey],
  );
  const largest = useMemo(
    () => survey.detections.reduce((most, d) => Math.max(most, d.count), 1),
    [survey],
  );
  const { transect } = placed;
  const step = (by: 1 | -1) => {
    const next = neighbour(labels, transect.transect, by);
    if (next !== null) onChoose(next);
  };
  const at = labels.indexOf(transect.transect);
  return (
    <section
      className="rope-card"
      aria-label={`Transect ${visible(transect.transect)}`}
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight') step(1);
        else if (event.key === 'ArrowLeft') step(-1);
        else return;
        event.preventDefault();
      }}
    >
      <div className="rope-card-head">
        <h2 aria-live="polite">
          {visible(transect.transect)} <span className="quiet">{headWords(placed, units)}</span>
        </h2>
        <span className="rope-card-steps">
          <button
            type="button"
            className="button small"
            disabled={at <= 0}
            onClick={() => step(-1)}
            aria-label="Previous transect"
          >
            ←
          </button>
          <button
            type="button"
            className="button small"
            disabled={at >= labels.length - 1}
            onClick={() => step(1)}
            aria-label="Next transect"
          >
            →
          </button>
        </span>
      </div>
      <Figure
        title={<span className="visually-hidden">{visible(transect.transect)} in section</span>}
        alt={sectionWords(section, units)}
        interactive
        table={<SectionTable section={section} units={units} />}
      >
        <CrossSection
          section={section}
          classes={analysis.substrates}
          shapes={shapes}
          largest={largest}
          units={units}
          name={`Cross-section of ${visible(transect.transect)} from its start to its end`}
        />
      </Figure>
      <p className={placed.residuals.some((r) => r.flagged) ? 'caution' : 'small quiet'}>
        {placingWords(placed, units).join(' ')}
      </p>
      {transect.notes !== null && (
        <p className="small">
          Noted on the sheet: <q>{visible(transect.notes)}</q>
        </p>
      )}
    </section>
  );
}

/** `29 June 2026 · belt, 1 m wide · Ines, then Tomas` */
function headWords({ transect: t }: PlacedTransect, units: Units): string {
  const width = lengthText(t.widthM, units, 3);
  const who =
    t.secondary === null
      ? visible(t.primary)
      : `${visible(t.primary)}, then ${visible(t.secondary)}`;
  return `${t.date} · ${t.design}, ${width} wide · ${who}`;
}

function sectionWords(section: Section, units: Units): string {
  const substrates = [...new Set(section.stretches.map((s) => s.label))];
  const found = section.clusters.length;
  return `The rope lies ${formatDepthBand(section.shallowestM, section.deepestM, unitSystem(units))} deep on ${listed(substrates, 'and')}; ${
    found === 0
      ? 'nothing was found'
      : `${found} ${found === 1 ? 'cluster was' : 'clusters were'} found`
  } along it.`;
}

function SectionTable({ section, units }: { section: Section; units: Units }) {
  const along = (m: number) => lengthText(m, units, 4);
  const depth = (m: number) => formatDepth(m, unitSystem(units));
  return (
    <>
      <DataTable
        caption="The bed along the rope"
        columns={[
          { title: 'From', cell: (s: Section['stretches'][number]) => along(s.fromM) },
          { title: 'To', align: 'right', cell: (s) => along(s.toM) },
          { title: 'Substrate', cell: (s) => s.label },
          { title: 'Depth there', align: 'right', cell: (s) => depth(s.points[0]!.depthM) },
          { title: 'At its end', align: 'right', cell: (s) => depth(s.points.at(-1)!.depthM) },
        ]}
        rows={section.stretches}
        keyOf={(s) => String(s.fromM)}
      />
      <DataTable
        caption="Clusters along the rope"
        columns={[
          { title: 'At', cell: (c: SectionCluster) => along(c.distanceM) },
          {
            title: 'Offset',
            align: 'right',
            cell: (c) => (c.offsetM === null ? '–' : lengthText(c.offsetM, units, 2)),
          },
          { title: 'Depth', align: 'right', cell: (c) => depth(c.depthM) },
          { title: 'Mussels', align: 'right', cell: (c) => c.count },
          {
            title: 'Found by',
            cell: (c) => `${visible(c.diver)}, ${c.role === 'primary' ? 'first' : 'second'}`,
          },
        ]}
        rows={section.clusters}
        keyOf={(c) => String(c.detection)}
        empty="Nothing was found."
      />
    </>
  );
}
