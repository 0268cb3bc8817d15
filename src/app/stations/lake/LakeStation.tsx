/** The Lake station: the number, how sure it is, where the mussels are, and what is not in it. */

import './lake.css';
import { labels } from '../../../../shared/glossary.ts';
import { landAreaUnit, type UnitSystem } from '../../../../shared/units.ts';
import { listed } from '../../../../shared/words.ts';
import { answer, type LakeNumber, lakeNumber, missingMaps } from '../../../present/answer.ts';
import { exclusions } from '../../../present/exclusions.ts';
import { HEADINGS } from '../../../present/headings.ts';
import { type UpperLimits, upperLimits } from '../../../present/limits.ts';
import { ciName } from '../../../present/quantity.ts';
import { strata } from '../../../present/strata.ts';
import { bootstrapSentence } from '../../../present/sureness.ts';
import {
  type TreatmentArea,
  type TreatmentAreas,
  treatmentAreas,
} from '../../../present/treatments.ts';
import type { ResultView } from '../../contract.ts';
import { DensityByDepth } from '../../plots/DensityByDepth.tsx';
import { MarginBars } from '../../plots/MarginBars.tsx';
import { Caution, DataTable, Said, unitSystem } from '../../shell/ui.tsx';
import { keptTogether } from '../../shell/words.ts';
import { useApp } from '../../state/app-context.tsx';
import { NoEstimate } from '../NoEstimate.tsx';
import { ForThePublic } from './ForThePublic.tsx';
import { IntervalBar } from './IntervalBar.tsx';
import { Methods } from './Methods.tsx';
import { StrataTables } from './StrataTables.tsx';
import { WhatIf } from './WhatIf.tsx';

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
  const units = unitSystem(state.units);
  const { headline, rest, habitat, intervals } = answer(result, units);
  const number = lakeNumber(result);
  const missing = missingMaps(result.lake);
  const bySubstrate = strata(result, units);
  const limits = upperLimits(result);
  const left = exclusions(result, units);
  const treatments = treatmentAreas(result, units);
  const ci = ciName(result.analysis.interval);
  return (
    <>
      <div>
        <h1 className="sentence">
          <Said text={headline} />
          {rest !== '' && <span className="lead lake-rest">{keptTogether(` ${rest}`)}</span>}
        </h1>
      </div>
      {number !== null && <HowSure number={number} bootstrap={bootstrapSentence(result)} />}
      {[habitat, intervals].map((note) =>
        note === null ? null : (
          <p key={note} className="small quiet">
            {keptTogether(note)}
          </p>
        ),
      )}
      {missing.length > 0 && (
        <Caution>
          For a number of the whole lake, add {listed(missing, 'and')} to the folder and open it
          again.
        </Caution>
      )}
      {bySubstrate.missing === null && (
        <MarginBars
          strata={bySubstrate}
          ciName={ci}
          focus={state.focus}
          onFocus={actions.setFocus}
        />
      )}
      {number !== null && (
        <DensityByDepth
          result={result}
          focusDepthM={state.focus.depthM}
          onDepth={(depthM) => actions.setFocus({ depthM })}
          units={state.units}
        />
      )}
      {bySubstrate.missing === null && (
        <StrataTables
          strata={bySubstrate}
          ciName={ci}
          units={units}
          focus={state.focus}
          onFocus={actions.setFocus}
        />
      )}
      {limits !== null && <Limits limits={limits} />}
      {left !== null && left.interpolated !== null && <Caution>{left.interpolated}</Caution>}
      {left !== null &&
        (left.rows.length > 0 ? (
          <Caution>{keptTogether(left.text)}</Caution>
        ) : (
          <p className="small quiet">{left.text}</p>
        ))}
      {treatments !== null && (
        <Treatments
          areas={treatments}
          ciName={ci}
          units={units}
          chosen={state.focus.treatment}
          onChoose={(treatment) =>
            actions.setFocus({ treatment, spot: null, lookAt: { treatment } })
          }
        />
      )}
      <WhatIf result={result} units={units} />
      <Methods result={result} units={units} />
      {result.lake.outline !== null && <ForThePublic lake={result.analysis.lake} />}
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

/** The interval as a picture, or that there is none; and the one of the bootstrap in words. */
function HowSure({ number, bootstrap }: { number: LakeNumber; bootstrap: string | null }) {
  const { before } = useApp().state;
  const { limits } = number;
  if (limits === null)
    return (
      <Caution>
        No interval could be given for this number. It cannot be said how far it may be off.
      </Caution>
    );
  const earlier =
    before !== null && before.mussels !== null && before.mussels > 0 && number.of === 'mussels'
      ? { ...before, mussels: before.mussels }
      : null;
  return (
    <div>
      <IntervalBar number={number} limits={limits} before={earlier} />
      {earlier !== null && (
        <p className="small quiet">Beneath: before the last change ({earlier.label}).</p>
      )}
      {bootstrap !== null && <p className="small quiet">{keptTogether(bootstrap)}</p>}
    </div>
  );
}

/** Searched, and nothing detected: the density that this still allows. */
function Limits({ limits }: { limits: UpperLimits }) {
  return (
    <div>
      <DataTable
        caption={HEADINGS.limits}
        columns={[
          { title: 'Class', cell: (l: UpperLimits['rows'][number]) => l.name },
          {
            title: `${labels('cluster')} per m², at most`,
            align: 'right',
            cell: (l) => l.clusters,
          },
          {
            title: `${labels('mussel')} per m², at most`,
            align: 'right',
            cell: (l) => l.mussels,
          },
        ]}
        rows={limits.rows}
        keyOf={(l, i) => `${i} ${l.name}`}
      />
      <p className="small quiet">{limits.note}</p>
    </div>
  );
}

/** Candidate areas side by side. */
function Treatments({
  areas,
  ciName: ci,
  units,
  chosen,
  onChoose,
}: {
  areas: TreatmentAreas;
  ciName: string;
  units: UnitSystem;
  /** place in the list */
  chosen: number | null;
  onChoose(area: number): void;
}) {
  return (
    <div>
      <DataTable
        caption={HEADINGS.treatments}
        columns={[
          { title: 'Area', cell: (t: TreatmentArea) => t.name },
          {
            title: landAreaUnit(units),
            align: 'right',
            cell: (t) => (
              <Above
                main={t.area}
                beneath={t.outside === null ? null : `and ${t.outside} outside`}
              />
            ),
          },
          {
            title: <Above main={labels('mussel')} beneath={ci} />,
            align: 'right',
            cell: ({ mussels: [estimate, interval] }) => (
              <Above main={estimate} beneath={interval} />
            ),
          },
          { title: 'Share', align: 'right', cell: (t) => t.share },
        ]}
        rows={areas.rows}
        keyOf={(t, i) => `${i} ${t.name}`}
        onRow={(t) => onChoose(areas.rows.indexOf(t))}
        isChosen={(t) => areas.rows.indexOf(t) === chosen}
      />
      <p className="small quiet">{areas.note}</p>
    </div>
  );
}

function Above({ main, beneath }: { main: string; beneath: string | null }) {
  return (
    <>
      {main}
      {beneath !== null && <span className="lake-beneath">{beneath}</span>}
    </>
  );
}
