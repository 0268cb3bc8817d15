/** What divers saw of what was there: counted against estimated, diver by diver, and how well the model says so. */

import { useMemo } from 'react';
import { formatCount, formatDigits, formatPercent } from '../../../../shared/units.ts';
import { observedByObserver } from '../../../present/observed-expected.ts';
import type { ResultView } from '../../contract.ts';
import { ClusterSizes } from '../../plots/ClusterSizes.tsx';
import { DetectionByDiver } from '../../plots/DetectionByDiver.tsx';
import { diverShapes } from '../../plots/diver-shapes.ts';
import { ObservedExpected } from '../../plots/ObservedExpected.tsx';
import { OffsetHistogram } from '../../plots/OffsetHistogram.tsx';
import { offsetsOf } from '../../plots/offset-data.ts';
import { sizeClasses } from '../../plots/size-data.ts';
import { Caution, Lead, Sentence } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { NoEstimate } from '../NoEstimate.tsx';
import { CountedBar } from './CountedBar.tsx';
import { countedAgainstThere, limitsOfDetection, ofTen } from './detection-facts.ts';
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
  const { state } = useApp();
  const { estimate, survey, segments, analysis } = result;
  const { detection } = estimate;
  const shapes = useMemo(() => diverShapes(survey.transects), [survey]);
  const counted = useMemo(() => countedAgainstThere(survey, detection), [survey, detection]);
  const offsets = useMemo(() => offsetsOf(result), [result]);
  const sizes = useMemo(
    () =>
      sizeClasses({
        detections: survey.detections,
        placed: result.detections,
        segments,
        estimate,
      }),
    [survey, result.detections, segments, estimate],
  );
  const byObserver = useMemo(() => observedByObserver(estimate.checks), [estimate]);
  const limits = limitsOfDetection(estimate.warnings);
  return (
    <div className="station">
      <Opening result={result} />
      {limits.length > 0 && (
        <Caution>
          <b>What cannot be told</b>
          {limits.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Caution>
      )}
      {counted && <CountedBar counted={counted} fixed={detection?.fixed != null} />}
      {detection && (
        <DetectionByDiver detection={detection} shapes={shapes} interval={analysis.interval} />
      )}
      {offsets && (
        <OffsetHistogram picture={offsets} shape={detection?.shape ?? null} units={state.units} />
      )}
      {byObserver && <ObservedExpected table={byObserver} />}
      <ClusterSizes classes={sizes} />
    </div>
  );
}

function Opening({ result }: { result: ResultView }) {
  const { estimate, survey } = result;
  const { detection, cluster_size } = estimate;
  if (detection === null) {
    return (
      <>
        <Sentence>Nothing was found, so nothing can be said about what divers see.</Sentence>
        <Lead>
          The limits at the other stations take it that divers see every cluster in their path; if
          they miss some, more could be there.
        </Lead>
      </>
    );
  }
  const size = cluster_size && (
    <>
      {' '}
      A cluster holds {formatDigits(cluster_size.mean, 2)}{' '}
      {cluster_size.mean === 1 ? 'mussel' : 'mussels'} on average.
    </>
  );
  if (detection.fixed !== null) {
    return (
      <>
        <Sentence>
          What divers miss cannot be estimated, because on some or all transects{' '}
          <b>nobody searched after the first diver</b>.
        </Sentence>
        <Lead>
          The share seen is taken as all there; every density is that of detectable clusters. A
          second diver who follows, with the two swapping roles between transects, would make it
          possible.{size}
        </Lead>
      </>
    );
  }
  const counted = countedAgainstThere(survey, detection);
  return (
    <>
      <Sentence>
        Of every ten clusters in the strip divers found about <b>{ofTen(detection.mean_p)}</b>.
      </Sentence>
      <Lead>
        That is {formatPercent(Number(detection.mean_p.toFixed(2)))} over all that was searched
        {counted &&
          `: ${formatCount(counted.first + counted.second)} clusters found, about ${formatDigits(counted.there, 2)} there`}
        .{size}
      </Lead>
    </>
  );
}
