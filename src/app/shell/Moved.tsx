/** After a change: what moved, and by how much. */

import { useApp } from '../state/app-context.tsx';
import { quantityWords } from './quantity.ts';

export function Moved() {
  const { state } = useApp();
  const { before, result } = state;
  if (before === null || result === null) return null;
  const now = result.estimate.abundance?.mussels ?? null;
  const words = (q: { estimate: number; lower: number | null; upper: number | null }) => {
    const { estimate, range } = quantityWords(q);
    return `${estimate} mussels${range === null ? '' : ` (${range})`}`;
  };
  const was =
    before.mussels === null
      ? null
      : words({ estimate: before.mussels, lower: before.lower, upper: before.upper });
  const is = now === null ? null : words(now);
  return (
    <div className="moved" role="status">
      <p className="small quiet">{before.label}</p>
      <p>
        {is === was
          ? `The lake's number did not move: ${is ?? 'there is none'}.`
          : `Now ${is ?? 'no lake-wide number'}; before ${was ?? 'there was none'}.`}
      </p>
    </div>
  );
}
