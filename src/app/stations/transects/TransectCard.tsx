/** One transect: its section, how to go on to the next, and what its waypoints and bearing say. */

import { useMemo } from 'react';
import { label, term } from '../../../../shared/glossary.ts';
import type { PlacedTransect } from '../../../../shared/survey.ts';
import { visible } from '../../../../shared/words.ts';
import { placing } from '../../../present/placing.ts';
import { sectionOf } from '../../../present/section.ts';
import { type SectionTable, sectionWords } from '../../../present/section-words.ts';
import { transectHead } from '../../../present/transects.ts';
import type { JudgedView, Units } from '../../contract.ts';
import { observerShapes } from '../../look/observer-shapes.ts';
import { CrossSection } from '../../plots/CrossSection.tsx';
import { DataTable, Figure, unitSystem } from '../../shell/ui.tsx';
import { Repairs } from '../survey/Repairs.tsx';
import { neighbour } from './neighbour.ts';
import { repairsOf } from './repairs-of.ts';

export function TransectCard({
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
  const system = unitSystem(units);
  const words = sectionWords(section, system);
  const where = placing(placed, system);
  const { transect } = placed;
  const repairs = useMemo(() => repairsOf(transect.transect, judged), [transect, judged]);
  const name = visible(transect.transect);
  const step = (by: 1 | -1) => {
    const next = neighbour(labels, transect.transect, by);
    if (next !== null) onChoose(next);
  };
  const at = labels.indexOf(transect.transect);
  return (
    <section
      className="transect-card"
      aria-label={`${label('transect')} ${name}`}
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight') step(1);
        else if (event.key === 'ArrowLeft') step(-1);
        else return;
        event.preventDefault();
      }}
    >
      <div className="transect-card-head">
        <h2 aria-live="polite">
          {name} <span className="quiet">{transectHead(placed, system)}</span>
        </h2>
        <span className="transect-card-steps">
          <Step by={-1} name="Previous" off={at <= 0} onStep={step} />
          <Step by={1} name="Next" off={at >= labels.length - 1} onStep={step} />
        </span>
      </div>
      <Figure
        title={<span className="visually-hidden">{words.title}</span>}
        alt={null}
        interactive
        table={
          <>
            <Rows table={words.bed} />
            <Rows table={words.clusters} />
          </>
        }
      >
        <CrossSection
          section={section}
          classes={analysis.substrates}
          shapes={shapes}
          largest={largest}
          units={units}
          name={words.described}
        />
      </Figure>
      <p className={where.doubtful ? 'caution' : 'small quiet'}>{where.text}</p>
      <Repairs repairs={repairs} />
      {transect.notes !== null && (
        <p className="small">
          Noted on the sheet: <q>{visible(transect.notes)}</q>
        </p>
      )}
    </section>
  );
}

function Step({
  by,
  name,
  off,
  onStep,
}: {
  by: 1 | -1;
  name: string;
  off: boolean;
  onStep(by: 1 | -1): void;
}) {
  return (
    <button
      type="button"
      className="button small"
      disabled={off}
      onClick={() => onStep(by)}
      aria-label={`${name} ${term('transect')}`}
    >
      {by === 1 ? '→' : '←'}
    </button>
  );
}

function Rows({ table: { caption, columns, rows, empty } }: { table: SectionTable }) {
  return (
    <DataTable
      caption={caption}
      columns={columns.map(({ title, number }, i) => ({
        title,
        ...(number ? { align: 'right' as const } : {}),
        cell: (row: SectionTable['rows'][number]) => row.cells[i],
      }))}
      rows={rows}
      keyOf={(row) => row.key}
      {...(empty === null ? {} : { empty })}
    />
  );
}
