/** What is believed of the lake before any survey: densities, detection, depths, and what lies behind them. */

import { useId } from 'react';
import { gloss, label, labels, term, terms } from '../../../../shared/glossary.ts';
import { useApp } from '../../state/app-context.tsx';
import type { StatedFields, Three } from '../../state/stated-fields.ts';
import { NumberField } from '../areas/NumberField.tsx';
import { Scaled } from '../areas/Scaled.tsx';
import { lengthUnit } from './length-unit.ts';
import { RangeField, RangeHead } from './RangeField.tsx';

const BLANK: Three = [null, null, null];

export function StatedForm({
  classes,
  fields,
  onChange,
}: {
  /** mapped ones */
  classes: readonly string[];
  fields: StatedFields;
  onChange(fields: StatedFields): void;
}) {
  const id = useId();
  const unit = lengthUnit(useApp().state.units);
  const change = (more: Partial<StatedFields>): void => onChange({ ...fields, ...more });
  return (
    <section className="stated-form no-print" aria-labelledby={id}>
      <h2 id={id}>What is expected</h2>
      <p className="small quiet">
        From a lake like this one, or a first look. The likely number alone will do; with the least
        and the most that are believed possible, the curve becomes a band. A substrate that is left
        blank is left out.
      </p>
      <RangeHead of={`${labels('cluster')} per m²`} />
      {classes.map((name) => (
        <RangeField
          key={name}
          label={name}
          value={fields.classes[name] ?? BLANK}
          onChange={(three) => change({ classes: { ...fields.classes, [name]: three } })}
        />
      ))}
      <RangeHead of={`${label('detectionProbability')}, %`} />
      <RangeField
        label={`of one ${term('observer')}`}
        value={fields.p}
        onChange={(p) => change({ p })}
      />
      <p className="small quiet">
        A {term('cluster')}: {gloss('cluster')}. The share of the {terms('cluster')} on the strip
        that one {term('observer')} detects.
      </p>
      <Scaled
        label={`From the ${term('depth')}`}
        of={unit}
        value={fields.depthFromM}
        onChange={(depthFromM) => change({ depthFromM })}
      />
      <Scaled
        label={`To the ${term('depth')}`}
        of={unit}
        value={fields.depthToM}
        above
        blank="greatest"
        onChange={(depthToM) => change({ depthToM })}
      />
      <details>
        <summary>{`${labels('observer')}, minutes, and how ${terms('cluster')} lie`}</summary>
        {[0, 1].map((i) => (
          <div className="plan-line" key={i}>
            <label htmlFor={`${id}o${i}`}>
              {i === 0 ? `One ${term('observer')}` : 'The other'}
            </label>
            <input
              id={`${id}o${i}`}
              className="field"
              autoComplete="off"
              value={fields.observers[i]}
              onChange={(e) => {
                const observers: StatedFields['observers'] = [...fields.observers];
                observers[i] = e.target.value;
                change({ observers });
              }}
            />
          </div>
        ))}
        <NumberField
          label="Minutes to set up a dive"
          unit="min"
          value={fields.setupMin}
          least={{ from: 0 }}
          blank="unknown"
          onChange={(setupMin) => change({ setupMin })}
        />
        <NumberField
          label="Minutes to search a m², both together"
          unit="min"
          value={fields.searchMinPerM2}
          least={{ from: 0 }}
          blank="unknown"
          onChange={(searchMinPerM2) => change({ searchMinPerM2 })}
        />
        <NumberField
          label={`Mussels in a ${term('cluster')}, mean`}
          unit=""
          value={fields.clusterSize}
          least={{ from: 1 }}
          onChange={(clusterSize) => change({ clusterSize })}
        />
        <NumberField
          label={`${label('overdispersion')} of counts: 0 none, 1 twice as variable`}
          unit=""
          value={fields.dispersion}
          least={{ from: 0 }}
          onChange={(dispersion) => change({ dispersion })}
        />
        <NumberField
          label={`How ${terms('transect')} differ, SD of the log density`}
          unit=""
          value={fields.transectSd}
          least={{ from: 0 }}
          onChange={(transectSd) => change({ transectSd })}
        />
        <Scaled
          label={`Scale of detection across, for ${terms('distanceTransect')}`}
          of={unit}
          value={fields.sigmaM}
          above
          blank="unknown"
          onChange={(sigmaM) => change({ sigmaM })}
        />
      </details>
    </section>
  );
}
