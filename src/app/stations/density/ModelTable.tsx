/** The models compared: difference in AICc and weight; the one used is marked. */

import { memo } from 'react';
import { capital, gloss, label, shortTerm } from '../../../../shared/glossary.ts';
import { HEADINGS } from '../../../present/headings.ts';
import { linesShown, type ModelComparison, type ModelLine } from '../../../present/models.ts';
import { Caution, DataTable } from '../../shell/ui.tsx';

/** More models stand in models.csv. */
const MOST_MODELS = 12;

export const ModelTable = memo(function ModelTable({ compared }: { compared: ModelComparison }) {
  const { withShapes, withDepths, withShores, averaged, kept, forced, notes } = compared;
  const { shown, more } = linesShown(compared, MOST_MODELS);
  const said = [averaged, kept, ...notes.map((note) => `${capital(note)}.`), more].filter(
    (one) => one !== null,
  );
  return (
    <div className="figure">
      {forced !== null && <Caution>{forced}</Caution>}
      <DataTable
        caption={HEADINGS.models}
        columns={[
          {
            title: label('countDistribution'),
            cell: (m: ModelLine) => (
              <>
                {m.used ? <b>{m.countDistribution}</b> : m.countDistribution}
                {m.mark !== '' && <span className="quiet"> · {m.mark}</span>}
              </>
            ),
          },
          { title: label('transectEffect'), cell: (m) => m.transectEffect },
          ...(withShapes
            ? [
                {
                  title: label('detectionFunction'),
                  cell: (m: ModelLine) => (
                    <span className="model-shape">{m.detectionFunction}</span>
                  ),
                },
              ]
            : []),
          ...(withDepths ? [{ title: label('depth'), cell: (m: ModelLine) => m.depth }] : []),
          ...(withShores
            ? [{ title: capital(shortTerm('alongShore')), cell: (m: ModelLine) => m.shore }]
            : []),
          { title: label('deltaAicc'), align: 'right' as const, cell: (m) => m.delta },
          { title: label('akaikeWeight'), align: 'right' as const, cell: (m) => m.weight },
        ]}
        rows={shown}
        keyOf={(_, i) => String(i)}
        isChosen={(m) => m.used}
      />
      <p className="small quiet">
        {label('deltaAicc')}: {gloss('deltaAicc')}; a difference below 2 is hardly one.{' '}
        {label('akaikeWeight')}: {gloss('akaikeWeight')}.
      </p>
      {said.length > 0 && (
        <ul className="plain-list small quiet">
          {said.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </div>
  );
});
