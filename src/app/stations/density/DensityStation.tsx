/** Where mussels concentrate, by which model, how far it can be believed, and the choices behind it. */

import { useCallback, useMemo } from 'react';
import { formatDepth, formatDepthBand, formatPercent } from '../../../../shared/units.ts';
import { listed, visible } from '../../../../shared/words.ts';
import { readModels } from '../../../present/models.ts';
import type { ResultView, Units } from '../../contract.ts';
import { substrateLabel } from '../../look/substrate-style.ts';
import { DensityByDepth } from '../../plots/DensityByDepth.tsx';
import { Caution, Lead, quantityWords, Sentence, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { ANALYSIS_FILE } from '../../state/edits.ts';
import { NoEstimate } from '../NoEstimate.tsx';
import { Checks } from './Checks.tsx';
import { Choices } from './Choices.tsx';
import {
  type Concentration,
  concentration,
  emptyClasses,
  sharesBySubstrate,
} from './density-facts.ts';
import { ModelTable } from './ModelTable.tsx';
import { WhatMoved } from './WhatMoved.tsx';
import './density.css';

export function DensityStation() {
  const { state, actions } = useApp();
  const { judged, result } = state;
  const onTransect = useCallback(
    (transect: string | null) => actions.setFocus({ transect }),
    [actions],
  );
  const onChoice = useCallback(
    (path: string, after: string) =>
      actions.edit({
        file: ANALYSIS_FILE,
        row: null,
        column: path,
        after,
        reason: 'choice of the analysis',
      }),
    [actions],
  );
  const compared = useMemo(() => result && readModels(result), [result]);
  const hasDistance = judged?.survey.transects.some((t) => t.design === 'distance') ?? false;
  return (
    <div className="station">
      {result === null ? <NoEstimate subject="density" /> : <Density result={result} />}
      {result !== null && (
        <Checks
          result={result}
          transect={state.focus.transect}
          onTransect={onTransect}
          units={state.units}
        />
      )}
      {compared !== null && compared.single === null && <ModelTable compared={compared} />}
      {judged !== null && (
        <Choices analysis={judged.analysis} hasDistance={hasDistance} onChoice={onChoice} />
      )}
      <WhatMoved />
    </div>
  );
}

function Density({ result }: { result: ResultView }) {
  const { state, actions } = useApp();
  const { curves, domain, survey, estimate } = result;
  const found = useMemo(() => {
    const depths = survey.habitat.map((h) => h.depthM);
    return concentration(curves, { fromM: Math.min(...depths), toM: Math.max(...depths) });
  }, [curves, survey]);
  const none = emptyClasses(estimate);
  return (
    <>
      <Opening found={found} result={result} units={state.units} />
      {none.length > 0 && (
        <Caution>
          Nothing was found on {listed(none.map(visible), 'and')}: the density there is given as 0,
          with an upper {formatPercent(result.analysis.interval)} limit of{' '}
          {listed(
            estimate.upper_limits.map((l) =>
              l.clusters_per_m2 === null
                ? `none on ${visible(l.class)}`
                : `${l.clusters_per_m2.toPrecision(2)} clusters per m² on ${visible(l.class)}`,
            ),
            'and',
          )}
          . That is what could have been missed, not a sign that none live there.
        </Caution>
      )}
      {found !== null && (
        <DensityByDepth
          curves={curves}
          domain={domain}
          focusDepthM={state.focus.depthM}
          onDepth={(depthM) => actions.setFocus({ depthM })}
          units={state.units}
        />
      )}
    </>
  );
}

function Opening({
  found,
  result,
  units,
}: {
  found: Concentration | null;
  result: ResultView;
  units: Units;
}) {
  if (found === null) {
    return (
      <>
        <Sentence>No mussels were found, so there is no density to draw.</Sentence>
        <Lead>
          Finding none does not show that there are none; the Lake station gives what could have
          been missed.
        </Lead>
      </>
    );
  }
  const { densest, sparsest } = found;
  const high = quantityWords({ ...densest, estimate: densest.musselsPerM2 });
  const shares = sharesBySubstrate(result.estimate.strata);
  return (
    <>
      <Sentence>
        Densest on <b>{visible(substrateLabel(densest.substrate))}</b>
        {found.level ? (
          ', whatever the depth'
        ) : (
          <>
            {' '}
            at <b>{formatDepth(densest.depthM, unitSystem(units))}</b>
          </>
        )}
        : about <b>{high.estimate} mussels per m²</b>
        {high.range !== null && `; it could be ${high.range}`}.
      </Sentence>
      <Lead>
        {sparsest !== null &&
          `Sparsest on ${visible(substrateLabel(sparsest.substrate))}, about ${quantityWords({ ...sparsest, estimate: sparsest.musselsPerM2 }).estimate} per m² at most. `}
        {shares.length > 1 &&
          `Of all mussels on the surveyed bed, ${listed(
            shares
              .slice(0, 2)
              .map(
                (s) =>
                  `${formatPercent(Number(s.share.toFixed(2)))} are on ${visible(s.substrate)}`,
              ),
            'and',
          )}. `}
        Recorded depths: {formatDepthBand(found.fromM, found.toM, unitSystem(units))}.
      </Lead>
    </>
  );
}
