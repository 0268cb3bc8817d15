/** The models compared: difference in AICc and weight; the one used is marked. */

import { memo } from 'react';
import type { Estimate } from '../../../../shared/estimate.ts';
import { formatPercent } from '../../../../shared/units.ts';
import { DataTable } from '../../shell/ui.tsx';
import { valueWords } from './choices.ts';
import { type ComparedModel, compareModels } from './compare-models.ts';

export const ModelTable = memo(function ModelTable({ estimate }: { estimate: Estimate }) {
  const rows = compareModels(estimate.models, estimate.model, estimate.detection?.shape ?? null);
  const shapes = rows.some((r) => r.model.shape !== null);
  const left = estimate.models.length - rows.length;
  return (
    <div className="figure">
      <DataTable
        caption="Models compared"
        columns={[
          {
            title: 'Spread of the counts',
            cell: ({ model, used }: ComparedModel) => (
              <>
                {used ? <b>{model.family}</b> : model.family}
                <span className="quiet">
                  {', '}
                  {valueWords('density.family', model.family)}
                  {used ? ' · used' : ''}
                </span>
              </>
            ),
          },
          {
            title: 'Transects differ',
            cell: ({ model }) => (model.transect_effect ? 'yes' : 'no'),
          },
          ...(shapes
            ? [{ title: 'Offset', cell: ({ model }: ComparedModel) => model.shape ?? '–' }]
            : []),
          {
            title: 'ΔAICc',
            align: 'right' as const,
            cell: ({ delta }) => (delta === null ? '–' : delta.toFixed(1)),
          },
          {
            title: 'Weight',
            align: 'right' as const,
            cell: ({ weight }) => (weight === null ? '–' : weightWords(weight)),
          },
        ]}
        rows={rows}
        keyOf={(_, i) => String(i)}
        isChosen={(r) => r.used}
      />
      <p className="small quiet">
        AICc weighs fit against the number of parameters: the least is the best supported, and a
        difference below 2 is hardly one.{' '}
        {left > 0 && `${left} more ended where one of these stands and are not listed twice.`}
      </p>
    </div>
  );
});

function weightWords(weight: number): string {
  return weight < 0.005 ? 'below 1 %' : formatPercent(Number(weight.toFixed(2)));
}
