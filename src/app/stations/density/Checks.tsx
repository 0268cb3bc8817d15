/** The checks on the model, each with the picture that proves it. */

import { memo, useMemo } from 'react';
import type { CheckName } from '../../../../shared/result.ts';
import { readChecks } from '../../../present/checks.ts';
import { readDistances } from '../../../present/detection-function.ts';
import {
  observedByDepth,
  observedByObserver,
  observedBySubstrate,
} from '../../../present/observed-expected.ts';
import type { ResultView, Units } from '../../contract.ts';
import { DistanceHistogram } from '../../plots/DistanceHistogram.tsx';
import { InfluencePlot } from '../../plots/InfluencePlot.tsx';
import { ObservedExpected } from '../../plots/ObservedExpected.tsx';
import { ResidualPlot } from '../../plots/ResidualPlot.tsx';
import { residualPoints } from '../../plots/residual-data.ts';
import { unitSystem } from '../../shell/ui.tsx';
import { Verdicts } from './Verdicts.tsx';

export const Checks = memo(function Checks({
  result,
  transect,
  onTransect,
  units,
}: {
  result: ResultView;
  transect: string | null;
  onTransect(transect: string | null): void;
  units: Units;
}) {
  const { checks, estimate, survey, segments, analysis } = result;
  const points = useMemo(() => residualPoints(segments, checks), [segments, checks]);
  const told = useMemo(() => readChecks(result), [result]);
  const tables = useMemo(
    () => ({
      observer: observedByObserver(estimate.checks),
      substrate: observedBySubstrate(estimate.checks),
      depth: observedByDepth(estimate.checks, unitSystem(units)),
    }),
    [estimate, units],
  );
  const distances = useMemo(() => readDistances(result, unitSystem(units)), [result, units]);
  if (told === null) return null;
  const picture = (name: CheckName) => {
    switch (name) {
      case 'observer':
      case 'substrate':
      case 'depth': {
        const table = tables[name];
        return table && <ObservedExpected table={table} />;
      }
      case 'perpendicular-distance':
        return distances && <DistanceHistogram picture={distances} units={units} />;
      case 'residuals':
        return (
          <ResidualPlot
            points={points}
            classes={analysis.substrates}
            transect={transect}
            onTransect={onTransect}
            units={units}
          />
        );
      case 'influence':
        return (
          <InfluencePlot
            transects={survey.transects}
            checks={checks}
            transect={transect}
            onTransect={onTransect}
          />
        );
      default:
        return null;
    }
  };
  return <Verdicts checks={told} picture={picture} />;
});
