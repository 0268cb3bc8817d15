/** The Lake station: the number, how sure it is, where the mussels are, and what is not in it. */

import './lake.css';
import type { Analysis } from '../../../../shared/analysis.ts';
import type { Quantity, TreatmentRow } from '../../../../shared/estimate.ts';
import {
  formatDigits,
  formatLandArea,
  formatPercent,
  type UnitSystem,
} from '../../../../shared/units.ts';
import { listed } from '../../../../shared/words.ts';
import type { ResultView } from '../../contract.ts';
import { DensityByDepth } from '../../plots/DensityByDepth.tsx';
import { quantityWords } from '../../shell/quantity.ts';
import { Caution, DataTable, Said, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { NoEstimate } from '../NoEstimate.tsx';
import { IntervalBar } from './IntervalBar.tsx';
import { headlineAndRest, missingFiles, outsideSentences, shareOfTotal } from './lake-facts.ts';
import { StrataTable } from './StrataTable.tsx';

export function LakeStation() {
  const { state } = useApp();
  return (
    <div className="station lake">
      {state.result === null ? <NoEstimate subject="lake" /> : <Estimated result={state.result} />}
    </div>
  );
}

function Estimated({ result }: { result: ResultView }) {
  const { state, actions } = useApp();
  const { estimate, lake, domain } = result;
  const units = unitSystem(state.units);
  const answer = headlineAndRest(units === 'metric' ? result.answer : result.answerUs);
  const nothingFound = estimate.data.detections === 0;
  const outside = outsideSentences(estimate, lake, domain, units);
  return (
    <>
      <div>
        <h1 className="sentence">
          <Said text={answer.headline} />
          {answer.rest !== '' && (
            <span className="lead lake-rest">{keptTogether(answer.rest)}</span>
          )}
        </h1>
      </div>
      <HowSure result={result} />
      {estimate.abundance === null && <WithoutLake result={result} />}
      {!nothingFound && (
        <DensityByDepth
          curves={result.curves}
          domain={domain}
          focusDepthM={state.focus.depthM}
          onDepth={(depthM) => actions.setFocus({ depthM })}
          units={state.units}
        />
      )}
      {estimate.strata !== null && estimate.strata.length > 0 && !nothingFound && (
        <StrataTable
          estimate={estimate}
          units={units}
          focus={state.focus}
          onFocus={actions.setFocus}
        />
      )}
      <Limits result={result} />
      {outside !== null && outside.length > 0 && <Caution>{outside.join(' ')}</Caution>}
      {outside !== null && outside.length === 0 && estimate.abundance !== null && (
        <p className="small quiet">All of the lake's bed is in the number.</p>
      )}
      <Treatments result={result} units={units} />
      <div className="lake-minds small quiet">
        <p>
          The number holds for the habitats and depths that were searched, as the maps of outline,
          substrate and depth show them; errors of those maps are not in the interval.
        </p>
        <p>
          It is a planning aid, not a prescription: labels and permits rule a treatment, licensed
          applicators set the dose, and native mussels and other animals can be harmed.
        </p>
      </div>
    </>
  );
}

/** The interval as a picture, or why there is none. */
function HowSure({ result }: { result: ResultView }) {
  const { before } = useApp().state;
  const { estimate, analysis } = result;
  const { abundance, data } = estimate;
  if (abundance === null || data.detections === 0) return null;
  const quantity = abundance.mussels ?? abundance.clusters;
  if (!hasInterval(quantity))
    return (
      <Caution>
        No interval could be given for this number. It cannot be said how far it may be off.
      </Caution>
    );
  const earlier =
    before !== null && before.mussels !== null && before.mussels > 0 && abundance.mussels !== null
      ? { ...before, mussels: before.mussels }
      : null;
  return (
    <div>
      <IntervalBar
        quantity={quantity}
        noun={abundance.mussels === null ? 'clusters' : 'mussels'}
        level={analysis.interval}
        before={earlier}
      />
      {earlier !== null && (
        <p className="small quiet">Beneath: before the last change ({before!.label}).</p>
      )}
      <Bootstrap result={result} />
    </div>
  );
}

function hasInterval(q: Quantity): q is Quantity & { lower: number; upper: number } {
  return q.lower !== null && q.upper !== null && q.lower > 0 && q.upper > q.lower;
}

function Bootstrap({ result }: { result: ResultView }) {
  const { bootstrap } = result.estimate;
  if (bootstrap?.mussels == null) return null;
  const { lower, upper } = bootstrap.mussels;
  return (
    <p className="small quiet">
      From transects drawn anew {bootstrap.replicates} times: {formatDigits(lower, 3)} to{' '}
      {formatDigits(upper, 3)}.
    </p>
  );
}

/** No lake-wide number: what it needs. */
function WithoutLake({ result }: { result: ResultView }) {
  const missing = missingFiles(result.lake);
  if (missing.length === 0) return null;
  return (
    <Caution>
      For a number of the whole lake, add {listed(missing, 'and')} to the folder and open it again.
      What the divers searched is estimated without them.
    </Caution>
  );
}

/** Searched, and nothing found: the density that this still allows. */
function Limits({ result }: { result: ResultView }) {
  const { upper_limits: limits } = result.estimate;
  if (limits.length === 0) return null;
  const level = (analysis: Analysis) => formatPercent(analysis.interval);
  return (
    <div>
      <DataTable
        caption="Searched, none found: the density that this still allows"
        columns={[
          { title: 'Bed', cell: (l: (typeof limits)[number]) => l.class },
          {
            title: 'clusters per m², at most',
            align: 'right',
            cell: (l) => (l.clusters_per_m2 === null ? '—' : formatDigits(l.clusters_per_m2, 2)),
          },
          {
            title: 'mussels per m², at most',
            align: 'right',
            cell: (l) => (l.mussels_per_m2 === null ? '–' : formatDigits(l.mussels_per_m2, 2)),
          },
        ]}
        rows={limits}
        keyOf={(l) => `${l.part} ${l.class}`}
      />
      <p className="small quiet">
        {level(result.analysis)} upper limits. Finding none does not show that there are none.
      </p>
    </div>
  );
}

/** Candidate areas side by side. */
function Treatments({ result, units }: { result: ResultView; units: UnitSystem }) {
  const { treatments, abundance } = result.estimate;
  if (treatments === null || treatments.length === 0) return null;
  const total = abundance?.mussels ?? null;
  const rest = treatments.some((t) => t.outside_area_m2 > 0);
  return (
    <div>
      <DataTable
        caption="Candidate treatment areas"
        columns={[
          { title: 'Area', cell: (t: (typeof treatments)[number]) => t.name },
          {
            title: units === 'metric' ? 'Hectares' : 'Acres',
            align: 'right',
            cell: (t) => (
              <>
                {landArea(t.area_m2, units)}
                {t.outside_area_m2 > 0 && (
                  <span className="lake-beneath">
                    and {landArea(t.outside_area_m2, units)} outside
                  </span>
                )}
              </>
            ),
          },
          { title: 'Mussels', align: 'right', cell: (t) => <Treated row={t} /> },
          {
            title: 'Share',
            align: 'right',
            cell: (t) => {
              const share = shareOfTotal(t.mussels, total);
              return share === null ? '–' : formatPercent(Number(share.toPrecision(2)));
            },
          },
        ]}
        rows={treatments}
        keyOf={(t, i) => `${i} ${t.name}`}
      />
      <p className="small quiet">
        Share of the mussels on all of the surveyed bed.
        {rest &&
          ' Outside: bed of the area that the survey does not speak for; its mussels are not counted here.'}
      </p>
    </div>
  );
}

/** An estimate with its interval beneath; where nothing was found, how many clusters could still be there. */
function Treated({ row }: { row: TreatmentRow }) {
  const { mussels: q, clusters } = row;
  if (q === null) return <>–</>;
  if (q.estimate === 0 && q.upper === null && clusters !== null && clusters.upper !== null)
    return (
      <>
        none found
        <span className="lake-beneath">up to {formatDigits(clusters.upper, 2)} clusters</span>
      </>
    );
  const { estimate, range } = quantityWords(q);
  return (
    <>
      {estimate}
      {range !== null && <span className="lake-beneath">{range}</span>}
    </>
  );
}

/** Without the unit, which stands at the column's head. */
function landArea(areaM2: number, units: UnitSystem): string {
  return formatLandArea(areaM2, units).replace(/ .*$/, '');
}
