/** The ropes: what was searched, each transect in section, and how well its position is known. */

import { useMemo } from 'react';
import { formatArea, formatDepthBand, formatDigits, M_PER_FOOT } from '../../../../shared/units.ts';
import type { JudgedView, Units } from '../../contract.ts';
import { Caution, Lead, Sentence, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { ropeInSection } from '../../state/rope-in-section.ts';
import { RopeCard } from './RopeCard.tsx';
import { RopeTable } from './RopeTable.tsx';
import { ropeRows, type SurveyFacts, surveyFacts, writtenRopes } from './transect-facts.ts';
import './transects.css';

export function TransectsStation() {
  const { state } = useApp();
  const { judged } = state;
  if (judged === null) return <p className="quiet">Reading the survey …</p>;
  if (judged.placed.length === 0) return <NoRopes />;
  return <Ropes judged={judged} />;
}

function NoRopes() {
  const { actions } = useApp();
  return (
    <div className="station">
      <Sentence>No transect could be placed yet.</Sentence>
      <p>
        The tables have faults that hide where the ropes lay.{' '}
        <button type="button" className="link" onClick={() => actions.go('survey')}>
          Mend them at the Survey station
        </button>
        .
      </p>
    </div>
  );
}

function Ropes({ judged }: { judged: JudgedView }) {
  const { state, actions } = useApp();
  const { survey, segments, placed } = judged;
  const facts = useMemo(() => surveyFacts(survey, segments), [survey, segments]);
  const rows = useMemo(() => ropeRows(placed, segments, survey), [placed, segments, survey]);
  const inSection = ropeInSection(placed, state.focus.transect)!;
  const choose = (transect: string | null) => actions.setFocus({ transect });
  const left = writtenRopes(judged.sheets) - placed.length;
  return (
    <div className="station">
      <Opening facts={facts} units={state.units} />
      {left > 0 && (
        <Caution>
          {left === 1 ? 'One transect' : `${left} transects`} could not be placed and{' '}
          {left === 1 ? 'is' : 'are'} not drawn; the faults are listed at the Survey station.
        </Caution>
      )}
      <RopeCard
        judged={judged}
        placed={inSection}
        labels={rows.map((r) => r.transect)}
        onChoose={choose}
        units={state.units}
      />
      <RopeTable
        rows={rows}
        chosen={inSection.transect.transect}
        onChoose={choose}
        units={state.units}
      />
    </div>
  );
}

function Opening({ facts, units }: { facts: SurveyFacts; units: Units }) {
  const metric = units === 'metric';
  const ropes = formatDigits(metric ? facts.ropeM : facts.ropeM / M_PER_FOOT, 3);
  const band =
    facts.fromM === null || facts.toM === null
      ? null
      : formatDepthBand(facts.fromM, facts.toM, unitSystem(units));
  return (
    <>
      <Sentence>
        <b>
          {facts.ropes} {facts.ropes === 1 ? 'rope' : 'ropes'}
        </b>
        {band !== null && (
          <>
            {' '}
            from <b>{band}</b> deep
          </>
        )}
        {facts.clusters === 0 ? (
          ', and no mussel was found on them.'
        ) : (
          <>
            , and <b>{facts.clusters.toLocaleString('en')}</b>{' '}
            {facts.clusters === 1 ? 'cluster' : 'clusters'} found on them.
          </>
        )}
      </Sentence>
      <Lead>
        {ropes} {metric ? 'm' : 'ft'} of rope, {formatArea(facts.areaM2, unitSystem(units))} of bed
        searched.
        {facts.clusters > 0 && (
          <>
            {' '}
            The clusters held {facts.mussels.toLocaleString('en')} mussels
            {facts.emptyRopes > 0 &&
              `; on ${facts.emptyRopes} ${facts.emptyRopes === 1 ? 'rope' : 'ropes'} nothing was found`}
            .
          </>
        )}
      </Lead>
    </>
  );
}
