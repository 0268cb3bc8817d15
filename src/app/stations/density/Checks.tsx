/** The checks on the model, each with the picture that shows what was computed. */

import { memo, type ReactNode } from 'react';
import type { Checking } from '../../../present/checking.ts';
import type { CheckName } from '../../../present/checks.ts';
import type { DistancePicture } from '../../../present/detection-function.ts';
import type { Units } from '../../contract.ts';
import { DistanceHistogram } from '../../plots/DistanceHistogram.tsx';
import { InfluencePlot } from '../../plots/InfluencePlot.tsx';
import { ObservedExpected } from '../../plots/ObservedExpected.tsx';
import { ResidualPlot } from '../../plots/ResidualPlot.tsx';
import { Verdicts } from './Verdicts.tsx';

export const Checks = memo(function Checks({
  checking,
  distances,
  transect,
  onTransect,
  units,
}: {
  checking: Checking;
  /** null without distance transects */
  distances: DistancePicture | null;
  transect: string | null;
  onTransect(transect: string | null): void;
  units: Units;
}) {
  const { observed, residuals, influence } = checking;
  const picture = (name: CheckName): ReactNode => {
    switch (name) {
      case 'observer':
      case 'substrate':
      case 'depth': {
        const table = observed[name];
        return table && <ObservedExpected table={table} />;
      }
      case 'perpendicular-distance':
        return distances && <DistanceHistogram picture={distances} units={units} />;
      case 'residuals':
        return (
          residuals && (
            <ResidualPlot
              residuals={residuals}
              transect={transect}
              onTransect={onTransect}
              units={units}
            />
          )
        );
      case 'influence':
        return (
          influence && (
            <InfluencePlot influence={influence} transect={transect} onTransect={onTransect} />
          )
        );
      default:
        return null;
    }
  };
  return <Verdicts checks={checking.checks} picture={picture} />;
});
