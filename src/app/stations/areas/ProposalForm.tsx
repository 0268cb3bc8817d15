/** What is asked of a choice of areas: the budget, and what can be treated as one area. */

import { useId, useState } from 'react';
import { type AreaRequest, USUAL_AREA } from '../../../../shared/areas.ts';
import { term, terms } from '../../../../shared/glossary.ts';
import { M_PER_FOOT, M2_PER_ACRE, M2_PER_HA, M3_PER_ACRE_FOOT } from '../../../../shared/units.ts';
import { useDesk } from '../../state/area-desk.ts';
import { NumberField } from './NumberField.tsx';
import { Scaled } from './Scaled.tsx';

/** What a budget is counted in, and how many m² or m³ one of it is. */
const BUDGETS = [
  { unit: 'ha', of: 'm2', size: M2_PER_HA },
  { unit: 'acres', of: 'm2', size: M2_PER_ACRE },
  { unit: 'm³', of: 'm3', size: 1 },
  { unit: 'acre-feet', of: 'm3', size: M3_PER_ACRE_FOOT },
] as const;
const MOST_PARTS = 10;

export function ProposalForm({
  imperial,
  busy,
  onAsk,
}: {
  imperial: boolean;
  busy: boolean;
  onAsk(request: AreaRequest): void;
}) {
  const id = useId();
  const layerM = useDesk((d) => d.layerM);
  const [amount, setAmount] = useState<number | null>(imperial ? 5 : 2);
  const [budget, setBudget] = useState(imperial ? 1 : 0);
  const [leastM2, setLeastM2] = useState<number | null>(USUAL_AREA.leastM2);
  const [widthM, setWidthM] = useState<number | null>(USUAL_AREA.widthM);
  const [marginM, setMarginM] = useState<number | null>(0);
  const [parts, setParts] = useState(USUAL_AREA.parts);
  const length = imperial ? { unit: 'ft', size: M_PER_FOOT } : { unit: 'm', size: 1 };
  const land = imperial ? { unit: 'acres', size: M2_PER_ACRE } : { unit: 'm²', size: 1 };
  const { of, size } = BUDGETS[budget] ?? BUDGETS[0];
  const ask = (): void => {
    if (amount === null || leastM2 === null || widthM === null || marginM === null) return;
    onAsk({
      budget_m2: of === 'm2' ? amount * size : null,
      budget_m3: of === 'm3' ? amount * size : null,
      layer_m: layerM,
      least_area_m2: leastM2,
      least_width_m: widthM,
      margin_m: marginM,
      most_parts: parts,
    });
  };
  return (
    <form
      className="area-form no-print"
      onSubmit={(e) => {
        e.preventDefault();
        if (e.currentTarget.querySelector('[aria-invalid="true"]') === null) ask();
      }}
    >
      <p className="small quiet">
        Connected areas that hold the most {terms('mussel')} for what can be treated, chosen by the
        estimate. Where a layer is set above, a volume is that of the layer.
      </p>
      <div className="area-budget">
        <NumberField
          label="At most"
          unit=""
          value={amount}
          least={{ above: 0 }}
          onChange={setAmount}
        />
        <select
          aria-label="Unit of the budget"
          className="field"
          value={budget}
          onChange={(e) => setBudget(Number(e.target.value))}
        >
          {BUDGETS.map(({ unit }, i) => (
            <option key={unit} value={i}>
              {unit}
            </option>
          ))}
        </select>
      </div>
      <details>
        <summary>What can be treated as one area</summary>
        <Scaled label="Least size" of={land} value={leastM2} above onChange={setLeastM2} />
        <Scaled label="Least width" of={length} value={widthM} above onChange={setWidthM} />
        <Scaled
          label={`Reach beyond each ${term('detection')} in it`}
          of={length}
          value={marginM}
          onChange={setMarginM}
        />
        <div className="area-number no-print">
          <label htmlFor={id}>Separate areas, at most</label>
          <select
            id={id}
            className="field"
            value={parts}
            onChange={(e) => setParts(Number(e.target.value))}
          >
            {Array.from({ length: MOST_PARTS }, (_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: numbers in order
              <option key={i} value={i + 1}>
                {i + 1}
              </option>
            ))}
          </select>
        </div>
      </details>
      <p>
        <button type="submit" className="button" disabled={busy}>
          Propose areas
        </button>
      </p>
    </form>
  );
}
