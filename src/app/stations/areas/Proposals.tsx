/** Areas proposed for a budget: what is asked for, how far the choice is, what came out, and its adoption. */

import { useId, useMemo } from 'react';
import type { NamedArea } from '../../../../shared/areas.ts';
import { labels, term } from '../../../../shared/glossary.ts';
import { TREATMENTS_FILE } from '../../../../shared/survey-files.ts';
import { landAreaUnit } from '../../../../shared/units.ts';
import { VARIANTS_FILE } from '../../../../shared/variants.ts';
import { type ProposalRow, readProposed, shareCurve } from '../../../present/proposals.ts';
import { ciName } from '../../../present/quantity.ts';
import type { Work } from '../../contract.ts';
import { ShareCurve } from '../../plots/ShareCurve.tsx';
import { DataTable, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { proposedShapes, setDesk, useDesk } from '../../state/area-desk.ts';
import { sameFiles } from '../../state/files.ts';
import { type Areas, keepNewArea } from '../../state/use-areas.ts';
import type { KeptStudy } from '../../study-contract.ts';
import { Running } from '../density/Studies.tsx';
import { ProposalForm } from './ProposalForm.tsx';
import { Stacked } from './Stacked.tsx';

export function Proposals({ areas }: { areas: Areas }) {
  const { state, actions } = useApp();
  const id = useId();
  const { running, areas: study, problem } = state.studies;
  return (
    <section className="area-propose" aria-labelledby={id}>
      <h2 id={id}>Proposals for a budget</h2>
      <ProposalForm
        imperial={state.units === 'us'}
        busy={running !== null}
        onAsk={actions.proposeAreas}
      />
      {running?.kind === 'areas' && <Running running={running} onCancel={actions.cancelStudy} />}
      {problem?.kind === 'areas' && (
        <p role="alert" className="area-problem">
          Nothing is proposed: {problem.why}.
        </p>
      )}
      {study?.kind === 'areas' && state.work !== null && (
        <Outcome areas={areas} study={study} work={state.work} />
      )}
    </section>
  );
}

function Outcome({
  areas,
  study,
  work,
}: {
  areas: Areas;
  study: KeptStudy & { kind: 'areas' };
  work: Work;
}) {
  const { state, actions } = useApp();
  const units = unitSystem(state.units);
  const file = study.areas;
  const read = useMemo(() => readProposed(file, units), [file, units]);
  const curve = useMemo(() => shareCurve(file, units), [file, units]);
  const ci = ciName(file.interval);
  const taken = new Set(areas.candidates.map(({ name }) => name));
  const shapes = proposedShapes(file);
  const looked = Math.min(
    useDesk((d) => d.proposal),
    shapes.length - 1,
  );
  const rows: (ProposalRow | (Omit<ProposalRow, 'corrected'> & { corrected: null }))[] = [
    ...read.proposals,
    ...(read.compact === null ? [] : [{ ...read.compact, corrected: null }]),
  ];
  const adopt = (shape: NamedArea): void => {
    let name = shape.name;
    for (let n = 2; taken.has(name); n++) name = `${shape.name} ${n}`;
    keepNewArea(work, actions, TREATMENTS_FILE, shape.polygons, { name, how: 'adopted' });
  };
  const look = (i: number): void => {
    setDesk({ proposal: i });
    const shape = shapes[i];
    if (shape) actions.setFocus({ lookAt: { rings: shape.polygons.flat() } });
  };
  return (
    <div className="area-outcome" role="status">
      {!sameFiles(withoutDrawn(study.files), withoutDrawn(work.files)) && (
        <p className="small study-old">From before the last change of the survey.</p>
      )}
      <p className="small">{keptTogether(read.asked)}</p>
      {rows.length > 0 && (
        <DataTable
          caption="What each proposal holds"
          columns={[
            { title: 'Name', cell: (row) => row.name },
            {
              title: <Stacked main={landAreaUnit(units)} beneath="m³" />,
              align: 'right',
              cell: (row) => <Stacked main={row.land} beneath={row.volume} />,
            },
            {
              title: <Stacked main={labels('mussel')} beneath={ci} />,
              align: 'right',
              cell: (row) => <Stacked main={row.mussels[0]} beneath={row.mussels[1]} />,
            },
            {
              title: <Stacked main="Share" beneath="as it looks" />,
              align: 'right',
              cell: (row) => row.share[0],
            },
            {
              title: <Stacked main="corrected" beneath={ci} />,
              align: 'right',
              cell: ({ corrected }) =>
                corrected && <Stacked main={corrected[0]} beneath={corrected[1]} />,
            },
          ]}
          rows={rows}
          keyOf={(row) => row.name}
          onRow={(row) => look(rows.indexOf(row))}
          isChosen={(row) => rows.indexOf(row) === looked}
        />
      )}
      {shapes[looked] !== undefined && <Adopt shape={shapes[looked]} onAdopt={adopt} />}
      {read.notes.map((note) => (
        <p key={note} className="small quiet">
          {keptTogether(note)}
        </p>
      ))}
      {curve !== null && <ShareCurve curve={curve} table={read.curve} />}
    </div>
  );
}

function Adopt({ shape, onAdopt }: { shape: NamedArea; onAdopt(shape: NamedArea): void }) {
  return (
    <p className="area-line no-print">
      <button type="button" className="button small" onClick={() => onAdopt(shape)}>
        Adopt {shape.name}
      </button>
      <span className="small quiet">
        It becomes a {term('treatmentArea')} that can be reshaped.
      </span>
    </p>
  );
}

/** The choice does not depend on them; but it does on places that are kept out of. */
function withoutDrawn(files: Work['files']): Work['files'] {
  return new Map([...files].filter(([name]) => name !== VARIANTS_FILE && name !== TREATMENTS_FILE));
}
