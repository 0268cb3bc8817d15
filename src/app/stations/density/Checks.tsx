/** The checks on the model, each with the picture that proves it. */

import { memo, useMemo } from 'react';
import type { ResultView, Units } from '../../contract.ts';
import { InfluencePlot } from '../../plots/InfluencePlot.tsx';
import { ObservedExpected } from '../../plots/ObservedExpected.tsx';
import { OffsetHistogram } from '../../plots/OffsetHistogram.tsx';
import { depthLabels, passLabels } from '../../plots/observed-labels.ts';
import { offsetsOf } from '../../plots/offset-data.ts';
import { ResidualPlot } from '../../plots/ResidualPlot.tsx';
import { residualPoints } from '../../plots/residual-data.ts';
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
  const passes = useMemo(() => passLabels(estimate.checks.by_diver), [estimate]);
  const depths = useMemo(() => depthLabels(estimate.checks.by_depth, units), [estimate, units]);
  const offsets = useMemo(() => offsetsOf(result), [result]);
  if (checks === null) return null;
  const picture = (name: string) => {
    switch (name) {
      case 'diver':
        return <ObservedExpected title="By diver and pass" what="diver and pass" rows={passes} />;
      case 'substrate':
        return (
          <ObservedExpected
            title="By substrate"
            what="substrate"
            rows={estimate.checks.by_substrate}
          />
        );
      case 'depth':
        return <ObservedExpected title="By depth" what="depth" rows={depths} />;
      case 'offset':
        return (
          offsets && (
            <OffsetHistogram
              picture={offsets}
              shape={estimate.detection?.shape ?? null}
              units={units}
            />
          )
        );
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
  return <Verdicts checks={checks.checks} picture={picture} />;
});
