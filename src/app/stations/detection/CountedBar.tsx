/** Of the clusters in the searched strips: found by the first diver, added by the second, found by neither. */

import { useId } from 'react';
import { formatCount, formatDigits } from '../../../../shared/units.ts';
import { HatchPattern } from '../../plots/Patterns.tsx';
import { DataTable, Figure } from '../../shell/ui.tsx';
import type { Counted } from './detection-facts.ts';

const HEIGHT = 26;

export function CountedBar({
  counted,
  fixed,
}: {
  counted: Counted;
  /** somewhere nobody followed: what the first diver missed there is not known */
  fixed: boolean;
}) {
  const id = useId();
  const { first, second, missed, there } = counted;
  const found = first + second;
  const about = formatDigits(there, 2);
  const parts = [
    {
      name: 'found by the diver who went first',
      value: first,
      text: formatCount(first),
      fill: 'first',
    },
    {
      name: 'added by the diver who followed',
      value: second,
      text: formatCount(second),
      fill: 'second',
    },
    {
      name: 'seen by nobody, estimated',
      value: missed,
      text: `about ${formatDigits(missed, 2)}`,
      fill: 'missed',
    },
  ].filter((p) => p.value > 0);
  let from = 0;
  return (
    <Figure
      title="Counted, and there"
      alt={`Of about ${about} clusters in the searched strips ${formatCount(found)} were found: ${formatCount(first)} by the diver who went first, ${formatCount(second)} by the one who followed.`}
      {...(fixed
        ? {
            note: 'Where nobody searched after the first diver, what he or she missed close to the rope is not in this.',
          }
        : {})}
      table={
        <DataTable
          caption="Clusters in the searched strips"
          captionHidden
          columns={[
            { title: 'Clusters', cell: (p: (typeof parts)[number]) => p.name },
            { title: 'Number', align: 'right', cell: (p) => p.text },
          ]}
          rows={[
            ...parts,
            { name: 'there in all, estimated', value: there, text: `about ${about}`, fill: '' },
          ]}
          keyOf={(p) => p.name}
        />
      }
    >
      <svg width="100%" height={HEIGHT} className="counted-bar" aria-hidden="true">
        <defs>
          <HatchPattern id={`${id}h`} />
        </defs>
        {parts.map((p) => {
          const x = from / there;
          from += p.value;
          return (
            <rect
              key={p.fill}
              x={`${100 * x}%`}
              width={`${(100 * p.value) / there}%`}
              height={HEIGHT}
              className={`counted-${p.fill}`}
              {...(p.fill === 'missed' ? { fill: `url(#${id}h)` } : {})}
            />
          );
        })}
      </svg>
      <ul className="plot-legend">
        {parts.map((p) => (
          <li key={p.fill}>
            <svg width="16" height="12" aria-hidden="true">
              <rect
                width="16"
                height="12"
                className={`counted-${p.fill}`}
                {...(p.fill === 'missed' ? { fill: `url(#${id}h)` } : {})}
              />
            </svg>
            <span>
              <b>{p.text}</b> <span className="quiet">{p.name}</span>
            </span>
          </li>
        ))}
      </ul>
    </Figure>
  );
}
