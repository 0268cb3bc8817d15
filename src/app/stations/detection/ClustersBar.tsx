/** Of the clusters in the searched strips: detected by the primary observer, added by the secondary, missed by both. */

import { useId } from 'react';
import type { ClustersPresent } from '../../../present/clusters-present.ts';
import { HatchPattern } from '../../look/Patterns.tsx';
import { DataTable, Figure } from '../../shell/ui.tsx';

const HEIGHT = 26;

export function ClustersBar({ clusters }: { clusters: ClustersPresent }) {
  const id = useId();
  const { parts, present, total } = clusters;
  const fill = (kind: string) => (kind === 'missed' ? { fill: `url(#${id}h)` } : {});
  let from = 0;
  return (
    <Figure
      title={clusters.title}
      alt={clusters.described}
      {...(clusters.note === null ? {} : { note: clusters.note })}
      table={
        <DataTable
          caption={clusters.title}
          captionHidden
          columns={[
            { title: clusters.columns.part, cell: (p: { name: string; text: string }) => p.name },
            { title: clusters.columns.number, align: 'right', cell: (p) => p.text },
          ]}
          rows={[...parts, total]}
          keyOf={(p) => p.name}
        />
      }
    >
      <svg width="100%" height={HEIGHT} className="clusters-bar" aria-hidden="true">
        <defs>
          <HatchPattern id={`${id}h`} />
        </defs>
        {parts.map((p) => {
          const x = from / present;
          from += p.value;
          return (
            <rect
              key={p.kind}
              x={`${100 * x}%`}
              width={`${(100 * p.value) / present}%`}
              height={HEIGHT}
              className={`clusters-${p.kind}`}
              {...fill(p.kind)}
            />
          );
        })}
      </svg>
      <ul className="plot-legend">
        {parts.map((p) => (
          <li key={p.kind}>
            <svg width="16" height="12" aria-hidden="true">
              <rect width="16" height="12" className={`clusters-${p.kind}`} {...fill(p.kind)} />
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
