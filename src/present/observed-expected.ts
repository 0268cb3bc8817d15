/** Detected against expected clusters, class by class, ready to be drawn: by observer and role, by substrate, by depth. */

import type { Estimate, ObservedByObserver } from '../../shared/estimate.ts';
import { capital, label, labels, term } from '../../shared/glossary.ts';
import { formatCount, formatDepth, formatDigits, type UnitSystem } from '../../shared/units.ts';
import { substrateWords } from './strata.ts';

export interface ObservedRow {
  /** the class within its group: `Ines, primary`, `sand`, `2–3 m` */
  label: string;
  /** the class by itself, with the group's name where there are several: no two rows have the same */
  name: string;
  observed: number;
  expected: number;
  observedText: string;
  expectedText: string;
}

export interface ObservedTable {
  of: 'observer' | 'substrate' | 'depth';
  /** `Detected and expected clusters by substrate` */
  title: string;
  /** heading of the column of classes */
  column: string;
  /** headings are null where there is one group only */
  groups: { heading: string | null; rows: ObservedRow[] }[];
  /** all figures in one text, for those who do not see the picture */
  described: string;
}

/** Of a result only what is read here. */
export interface ComparedOf {
  estimate: { checks: Pick<Estimate['checks'], 'by_diver' | 'by_substrate' | 'by_depth'> };
}

const DESIGNS = { belt: 'beltTransect', distance: 'distanceTransect' } as const;

/** A group for each design where a survey has both; null when nothing was compared. */
export function observedByObserver({ estimate }: ComparedOf): ObservedTable | null {
  const { by_diver } = estimate.checks;
  const designs = (['belt', 'distance'] as const).filter((d) =>
    by_diver.some((r) => r.design === d),
  );
  const several = designs.length > 1;
  const nameOf = (r: ObservedByObserver) => `${r.observer}, ${r.role}`;
  return tableOf(
    'observer',
    designs.map((design) => ({
      heading: several ? labels(DESIGNS[design]) : null,
      rows: by_diver
        .filter((r) => r.design === design)
        .map((r) => rowOf(r, nameOf(r), several ? `${nameOf(r)}, ${design}` : nameOf(r))),
    })),
  );
}

export function observedBySubstrate({ estimate }: ComparedOf): ObservedTable | null {
  const rows = estimate.checks.by_substrate.map((r) => rowOf(r, substrateWords(r.substrate)));
  return tableOf('substrate', [{ heading: null, rows }]);
}

/** Depth bands from the shallowest down. */
export function observedByDepth(
  { estimate }: ComparedOf,
  units: UnitSystem = 'metric',
): ObservedTable | null {
  const rows = estimate.checks.by_depth.map((r) =>
    rowOf(r, bandLabel(r.depth_from_m, r.depth_to_m, units)),
  );
  return tableOf('depth', [{ heading: null, rows }]);
}

/** `2–3 m`; for readers of feet `7–10 ft`. */
function bandLabel(fromM: number, toM: number, units: UnitSystem): string {
  if (units === 'metric') return `${fromM}–${toM} m`;
  return `${formatDepth(fromM, units).replace(/ .*/, '')}–${formatDepth(toM, units)}`;
}

function rowOf(
  { observed, expected }: { observed: number; expected: number },
  text: string,
  name = text,
): ObservedRow {
  return {
    label: text,
    name,
    observed,
    expected,
    observedText: formatCount(observed),
    expectedText: expectedText(expected),
  };
}

/** `12.3`, `1,234`: a comparison with whole counts needs no more; below 1 two digits. */
export function expectedText(clusters: number): string {
  if (clusters >= 99.95) return formatCount(clusters);
  return clusters >= 1 ? clusters.toFixed(1) : formatDigits(clusters, 2);
}

function tableOf(of: ObservedTable['of'], groups: ObservedTable['groups']): ObservedTable | null {
  if (groups.every((g) => g.rows.length === 0)) return null;
  return {
    of,
    title: capital(`detected and expected clusters by ${term(of)}`),
    column: label(of),
    groups,
    described: `${groups.map(described).join('. ')}.`,
  };
}

function described({ heading, rows }: ObservedTable['groups'][number]): string {
  const each = rows.map(
    (r) => `${r.label}: ${r.observedText} detected, ${r.expectedText} expected`,
  );
  return `${heading === null ? '' : `${heading}: `}${each.join('; ')}`;
}
