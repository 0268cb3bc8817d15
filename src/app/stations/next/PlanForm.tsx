/** What the next dives are to reach, and how they are made. */

import { useId, useState } from 'react';
import { label, term, terms } from '../../../../shared/glossary.ts';
import type { PlanFile, PlannedDive, PlanTarget } from '../../../../shared/planning.ts';
import type { PlanWanted } from '../../plan-contract.ts';
import { Switch } from '../../shell/ui.tsx';
import { useApp } from '../../state/app-context.tsx';
import { NumberField } from '../areas/NumberField.tsx';
import { Scaled } from '../areas/Scaled.tsx';
import { lengthUnit } from './length-unit.ts';
import { StartDepths } from './StartDepths.tsx';

type Kind = PlanTarget['kind'];

/** What each target begins with: per cent, dives, minutes. */
const FIRST: Record<Kind, number> = { cv: 15, transects: 20, minutes: 600 };
const MOST_SECTIONS = 12;

export function PlanForm({
  wanted,
  plan,
  busy,
  alone = false,
  onAsk,
}: {
  wanted: PlanWanted;
  /** the last one: what it filled in */
  plan: PlanFile | null;
  busy: boolean;
  /** there is no survey that the dives could be added to */
  alone?: boolean;
  onAsk(wanted: PlanWanted): void;
}) {
  const id = useId();
  const unit = lengthUnit(useApp().state.units);
  const [target, setTarget] = useState(wanted.target);
  const [own, setOwn] = useState(wanted);
  const dive = { ...plan?.request.dive, ...own.dive };
  const change = (more: Partial<PlanWanted>): void => setOwn({ ...own, ...more });
  const changeDive = (more: Partial<PlannedDive>): void =>
    change({ dive: { ...own.dive, ...more } });
  return (
    <form
      className="plan-form no-print"
      aria-label="What the dives are to reach"
      onSubmit={(e) => {
        e.preventDefault();
        if (e.currentTarget.querySelector('[aria-invalid="true"]') !== null) return;
        onAsk({ ...own, target });
      }}
    >
      <Switch
        label="What is asked for"
        value={target.kind}
        options={[
          { value: 'cv', text: `a ${term('cv')}` },
          { value: 'transects', text: 'so many dives' },
          { value: 'minutes', text: 'dive minutes' },
        ]}
        onChange={(kind: Kind) => setTarget(targetOf(kind, FIRST[kind]))}
      />
      <NumberField
        key={target.kind}
        label={
          target.kind === 'cv'
            ? `The ${term('cv')} to reach`
            : target.kind === 'transects'
              ? 'Dives, up to 200'
              : 'Minutes in all'
        }
        unit={target.kind === 'cv' ? '%' : target.kind === 'minutes' ? 'min' : ''}
        value={amountOf(target)}
        least={{ above: 0 }}
        onChange={(x) => x !== null && setTarget(targetOf(target.kind, x))}
      />
      {!alone && (
        <p className="plan-line">
          <label>
            <input
              type="checkbox"
              checked={own.added}
              onChange={(e) => change({ added: e.target.checked })}
            />
            added to this survey (else a survey of their own)
          </label>
        </p>
      )}
      <details>
        <summary>How they are made</summary>
        <div className="plan-line">
          <label htmlFor={`${id}d`}>{label('design')}</label>
          <select
            id={`${id}d`}
            className="field"
            value={dive.design ?? 'belt'}
            onChange={(e) =>
              // length and width of the other design are those that it was dived with
              change({ dive: { design: e.target.value as PlannedDive['design'] } })
            }
          >
            <option value="belt">{term('belt')}</option>
            <option value="distance">{term('distance')}</option>
          </select>
        </div>
        <div className="plan-line">
          <label htmlFor={`${id}o`}>{`${terms('observer')} on each`}</label>
          <select
            id={`${id}o`}
            className="field"
            value={dive.observers ?? 2}
            onChange={(e) => changeDive({ observers: e.target.value === '1' ? 1 : 2 })}
          >
            <option value={2}>two</option>
            <option value={1}>one</option>
          </select>
        </div>
        <Scaled
          label="Length"
          of={unit}
          value={dive.lengthM ?? null}
          above
          blank={alone ? 'as usual' : null}
          onChange={(x) => x !== null && changeDive({ lengthM: x })}
        />
        <Scaled
          label="Width searched"
          of={unit}
          value={dive.widthM ?? null}
          above
          blank={alone ? 'as usual' : null}
          onChange={(x) => x !== null && changeDive({ widthM: x })}
        />
        <div className="plan-line">
          <label htmlFor={`${id}w`}>Laid</label>
          <select
            id={`${id}w`}
            className="field"
            value={dive.direction === 'across' ? 'across' : 'down'}
            onChange={(e) =>
              changeDive({ direction: e.target.value === 'across' ? 'across' : 'down' })
            }
          >
            <option value="down">down the slope</option>
            <option value="across">across the slope</option>
          </select>
        </div>
        <StartDepths
          key={unit.unit}
          unit={unit}
          value={own.startDepthsM ?? plan?.request.startDepthsM ?? null}
          onChange={(startDepthsM) => change({ startDepthsM })}
        />
        <div className="plan-line">
          <label htmlFor={`${id}z`}>Stretches of the shore</label>
          <select
            id={`${id}z`}
            className="field"
            value={own.sections ?? plan?.request.sections ?? 4}
            onChange={(e) => change({ sections: Number(e.target.value) })}
          >
            {Array.from({ length: MOST_SECTIONS }, (_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: numbers in order
              <option key={i} value={i + 1}>
                {i + 1}
              </option>
            ))}
          </select>
        </div>
        <div className="plan-line">
          <label htmlFor={`${id}a`}>Shared among them</label>
          <select
            id={`${id}a`}
            className="field"
            value={own.allocation}
            onChange={(e) => change({ allocation: e.target.value === 'even' ? 'even' : 'best' })}
          >
            <option value="best">where they tell most</option>
            <option value="even">by their length</option>
          </select>
        </div>
      </details>
      <p>
        <button type="submit" className="button primary" disabled={busy}>
          {busy ? 'Looking at places …' : 'Plan these dives'}
        </button>
      </p>
    </form>
  );
}

function targetOf(kind: Kind, amount: number): PlanTarget {
  switch (kind) {
    case 'cv':
      return { kind, cv: amount / 100 };
    case 'transects':
      return { kind, transects: Math.round(amount) };
    case 'minutes':
      return { kind, minutes: amount };
  }
}

function amountOf(target: PlanTarget): number {
  switch (target.kind) {
    case 'cv':
      return Number((100 * target.cv).toPrecision(4));
    case 'transects':
      return target.transects;
    case 'minutes':
      return target.minutes;
  }
}
