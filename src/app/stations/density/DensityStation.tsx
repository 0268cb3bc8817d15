/** Where mussels concentrate, by which model, how far it can be believed, and the choices behind it. */

import { useCallback, useMemo } from 'react';
import { gloss, label, term } from '../../../../shared/glossary.ts';
import { listed, visible } from '../../../../shared/words.ts';
import { readChecking } from '../../../present/checking.ts';
import { type Concentration, concentration, emptyClasses } from '../../../present/density-facts.ts';
import { readDistances } from '../../../present/detection-function.ts';
import { readModels } from '../../../present/models.ts';
import { plantBasis } from '../../../present/plant-basis.ts';
import { type SubstrateRow, strata } from '../../../present/strata.ts';
import type { ResultView } from '../../contract.ts';
import { DensityByDepth } from '../../plots/DensityByDepth.tsx';
import { MOST_TRANSECTS } from '../../plots/InfluencePlot.tsx';
import { Caution, Lead, Sentence, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { ANALYSIS_FILE } from '../../state/edits.ts';
import { NoEstimate } from '../NoEstimate.tsx';
import { Checks } from './Checks.tsx';
import { Choices } from './Choices.tsx';
import { ModelTable } from './ModelTable.tsx';
import { Studies } from './Studies.tsx';
import { Variants } from './Variants.tsx';
import { WhatMoved } from './WhatMoved.tsx';
import './density.css';

export function DensityStation() {
  const { state, actions } = useApp();
  const { judged, result } = state;
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
  const hasDistance = judged?.survey.transects.some((t) => t.design === 'distance') ?? false;
  return (
    <div className="station density-station">
      {result === null ? (
        <NoEstimate subject="density" />
      ) : (
        <>
          <Density result={result} />
          <Model result={result} />
        </>
      )}
      {judged !== null && (
        <Choices analysis={judged.analysis} hasDistance={hasDistance} onChoice={onChoice} />
      )}
      <WhatMoved />
      {judged !== null && state.work !== null && (
        <>
          <Variants
            work={state.work}
            judged={judged}
            result={result}
            isSettled={state.run.state === 'idle' && !state.stopped}
            studies={state.studies}
            actions={actions}
          />
          {result !== null && (
            <Studies
              work={state.work}
              lake={judged.analysis.lake}
              studies={state.studies}
              actions={actions}
            />
          )}
        </>
      )}
    </div>
  );
}

function Density({ result }: { result: ResultView }) {
  const { state, actions } = useApp();
  const units = unitSystem(state.units);
  const facts = useMemo(() => concentration(result, units), [result, units]);
  const { substrates } = useMemo(() => strata(result, units), [result, units]);
  const none = emptyClasses(result);
  return (
    <>
      {facts === null ? <NothingDetected /> : <Opening facts={facts} substrates={substrates} />}
      {none !== null && <Caution>{visible(none)}</Caution>}
      {facts !== null && (
        <DensityByDepth
          result={result}
          focusDepthM={state.focus.depthM}
          onDepth={(depthM) => actions.setFocus({ depthM })}
          units={state.units}
          note={plantBasis(result)?.curves ?? null}
        />
      )}
    </>
  );
}

function NothingDetected() {
  return (
    <>
      <Sentence>No mussels were detected, so there is no density to draw.</Sentence>
      <Lead>
        Nothing detected does not show that there are none; the Lake station gives what could have
        been missed.
      </Lead>
    </>
  );
}

function Opening({ facts, substrates }: { facts: Concentration; substrates: SubstrateRow[] }) {
  const { densest, sparsest, depth, plants, recorded } = facts;
  const most = substrates
    .flatMap((s) => (s.share === null ? [] : [{ name: s.words, ...s.share }]))
    .sort((a, b) => b.value - a.value)
    .slice(0, 2)
    .map((s) => `${s.text} are on ${visible(s.name)}`);
  return (
    <>
      <Sentence>
        Densest on <b>{visible(densest.name)}</b>
        {depth === null ? (
          ', whatever the depth'
        ) : (
          <>
            {' '}
            at <b>{depth}</b>
          </>
        )}
        : about <b>{densest.estimate} mussels per m²</b>
        {densest.interval !== null && ` (${facts.intervalName} ${densest.interval})`}.
      </Sentence>
      <Lead>
        {sparsest !== null &&
          `Sparsest on ${visible(sparsest.name)}, about ${sparsest.estimate} per m² at most${plants === null ? '' : `, ${plants}`}. `}
        {most.length > 1 &&
          `Of all mussels in the ${term('surveyedHabitat')}, ${listed(most, 'and')}. `}
        Recorded depths: {recorded}.
      </Lead>
      <p className="small quiet">
        {label('surveyedHabitat')}: {gloss('surveyedHabitat')}. {label('confidenceInterval')}:{' '}
        {gloss('confidenceInterval')}.
      </p>
    </>
  );
}

function Model({ result }: { result: ResultView }) {
  const { state, actions } = useApp();
  const onTransect = useCallback(
    (transect: string | null) => actions.setFocus({ transect }),
    [actions],
  );
  const checking = useMemo(
    () => readChecking(result, MOST_TRANSECTS, unitSystem(state.units)),
    [result, state.units],
  );
  const distances = useMemo(
    () => readDistances(result, unitSystem(state.units)),
    [result, state.units],
  );
  const compared = useMemo(() => readModels(result), [result]);
  return (
    <>
      {checking !== null && (
        <Checks
          checking={checking}
          distances={distances}
          transect={state.focus.transect}
          onTransect={onTransect}
          units={state.units}
        />
      )}
      {compared !== null && compared.single === null && <ModelTable compared={compared} />}
    </>
  );
}
