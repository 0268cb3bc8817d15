/** What was detected of what was there: counted against estimated, observer by observer, and how well the model fits that. */

import { useMemo } from 'react';
import { readSizes } from '../../../present/cluster-sizes.ts';
import { clustersPresent } from '../../../present/clusters-present.ts';
import { readDetection } from '../../../present/detection.ts';
import { readDetectionAgainst } from '../../../present/detection-against.ts';
import { readDistances } from '../../../present/detection-function.ts';
import { detectionOpening } from '../../../present/detection-opening.ts';
import { limitsOfDetection } from '../../../present/not-estimable.ts';
import { observedByObserver } from '../../../present/observed-expected.ts';
import type { ResultView } from '../../contract.ts';
import { ClusterSizes } from '../../plots/ClusterSizes.tsx';
import { DetectionAgainst } from '../../plots/DetectionAgainst.tsx';
import { DetectionByObserver } from '../../plots/DetectionByObserver.tsx';
import { DistanceHistogram } from '../../plots/DistanceHistogram.tsx';
import { ObservedExpected } from '../../plots/ObservedExpected.tsx';
import { Caution, Lead, Sentence, unitSystem } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { NoEstimate } from '../NoEstimate.tsx';
import { ClustersBar } from './ClustersBar.tsx';
import './detection.css';

export function DetectionStation() {
  const { state } = useApp();
  if (state.result === null) {
    return (
      <div className="station">
        <NoEstimate subject="detection" />
      </div>
    );
  }
  return <Detection result={state.result} />;
}

function Detection({ result }: { result: ResultView }) {
  const { units } = useApp().state;
  const clusters = useMemo(() => clustersPresent(result), [result]);
  const reading = useMemo(() => readDetection(result), [result]);
  const distances = useMemo(() => readDistances(result, unitSystem(units)), [result, units]);
  const against = useMemo(() => readDetectionAgainst(result, unitSystem(units)), [result, units]);
  const sizes = useMemo(() => readSizes(result), [result]);
  const byObserver = useMemo(() => observedByObserver(result), [result]);
  return (
    <div className="station">
      <Opening result={result} />
      <Limits result={result} />
      {clusters && <ClustersBar clusters={clusters} />}
      {reading && <DetectionByObserver reading={reading} />}
      {reading && (
        <p>
          {[reading.mean, reading.why, reading.added, reading.planted]
            .filter((words) => words !== null)
            .join(' ')}
        </p>
      )}
      {against.map((picture) => (
        <DetectionAgainst key={picture.covariate} picture={picture} />
      ))}
      {distances && <DistanceHistogram picture={distances} units={units} />}
      {byObserver && <ObservedExpected table={byObserver} />}
      {sizes && <ClusterSizes picture={sizes} />}
    </div>
  );
}

function Opening({ result }: { result: ResultView }) {
  const {
    sentence: [before, strong, after],
    lead,
  } = detectionOpening(result);
  return (
    <>
      <Sentence>
        {before}
        <b>{strong}</b>
        {after}
      </Sentence>
      <Lead>{lead}</Lead>
    </>
  );
}

function Limits({ result }: { result: ResultView }) {
  const limits = limitsOfDetection(result);
  if (limits === null) return null;
  return (
    <Caution>
      <b>{limits.title}</b>
      {limits.sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </Caution>
  );
}
