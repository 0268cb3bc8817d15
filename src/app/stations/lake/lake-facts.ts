/** What the Lake station says in words and figures: where the mussels are, what is not in the number, what is missing. */

import type { Estimate, Quantity, Stratum } from '../../../../shared/estimate.ts';
import type { Domain, Lake } from '../../../../shared/survey.ts';
import { formatArea, formatDepthBand, type UnitSystem } from '../../../../shared/units.ts';
import { listed } from '../../../../shared/words.ts';

/** The answer as a headline and what follows it; together, with the space between, they are the answer itself. */
export function headlineAndRest(answer: string): { headline: string; rest: string } {
  const end = /\.\s(?=[A-Z])/.exec(answer);
  if (end === null) return { headline: answer, rest: '' };
  const at = end.index + 1;
  return { headline: answer.slice(0, at), rest: answer.slice(at) };
}

/** Strata of one substrate. The sums have no interval: strata of one substrate share their coefficients. */
export interface BedRow {
  substrate: string;
  areaM2: number;
  mussels: number | null;
  perM2: number | null;
  strata: Stratum[];
}

export function bedRows(strata: readonly Stratum[]): BedRow[] {
  const rows = new Map<string, BedRow>();
  for (const s of strata) {
    let row = rows.get(s.substrate);
    if (row === undefined) {
      row = { substrate: s.substrate, areaM2: 0, mussels: null, perM2: null, strata: [] };
      rows.set(s.substrate, row);
    }
    row.strata.push(s);
    row.areaM2 += s.area_m2;
    if (s.mussels !== null) row.mussels = (row.mussels ?? 0) + s.mussels.estimate;
  }
  for (const row of rows.values())
    row.perM2 = row.mussels !== null && row.areaM2 > 0 ? row.mussels / row.areaM2 : null;
  return [...rows.values()].sort((a, b) => (b.perM2 ?? 0) - (a.perM2 ?? 0));
}

/** `sand and gravel` */
export function bedWords(label: string): string {
  return listed(label.split('+'), 'and');
}

/** Substrates that are on the map and that no rope crossed. */
export function neverSearched(lake: Lake, domain: Domain): string[] {
  const classes = (lake.substrate ?? []).flatMap((p) => p.substrate);
  return [...new Set(classes)].filter((c) => !domain.classes.includes(c));
}

/**
 * The bed that the number leaves out, by reason, as sentences; empty when it leaves out nothing, null without a lake.
 */
export function outsideSentences(
  { abundance, outside }: Pick<Estimate, 'abundance' | 'outside'>,
  lake: Lake,
  domain: Domain,
  units: UnitSystem,
): string[] | null {
  if (outside === null) return null;
  const band = formatDepthBand(domain.depthFromM, domain.depthToM, units);
  const unsearched = neverSearched(lake, domain);
  const reasons: Record<string, string> = {
    substrate:
      unsearched.length === 0
        ? 'on substrates that no rope crossed'
        : `on substrates that no rope crossed (${listed(unsearched, 'and')})`,
    'plant cover': 'with more or fewer plants than were searched',
    depth: `shallower or deeper than the ${band} that the survey speaks for`,
    'depth unmapped': 'where no depth is mapped',
  };
  const parts = outside
    .filter((o) => o.area_m2 > 0)
    .map((o) => `${formatArea(o.area_m2, units)} ${reasons[o.reason] ?? o.reason}`);
  const sentences: string[] = [];
  if (parts.length > 0) sentences.push(`Mapped but not in the number: ${listed(parts, 'and')}.`);
  const unmappedM2 = abundance?.unmapped_area_m2 ?? 0;
  if (unmappedM2 > 0)
    sentences.push(
      `Another ${formatArea(unmappedM2, units)} of the lake has no substrate on the map.`,
    );
  if (sentences.length > 0) sentences.push('Mussels may live there too.');
  return sentences;
}

/** Files that a lake-wide number needs and that the folder lacks. */
export function missingFiles({ outline, substrate, depth }: Lake): string[] {
  return [
    ...(outline === null ? ['outline.geojson'] : []),
    ...(substrate === null ? ['substrate.geojson'] : []),
    ...(depth === null ? ['depth.geojson or depth.tif'] : []),
  ];
}

/** Share of the surveyed total in a treatment area; null where either is missing or 0. */
export function shareOfTotal(part: Quantity | null, total: Quantity | null): number | null {
  if (part === null || total === null || !(total.estimate > 0)) return null;
  return part.estimate / total.estimate;
}

/** Marks of a log axis: 1, 2 and 5 times powers of ten within the span, fewer when they would be many. */
export function logTicks(from: number, to: number, most: number): number[] {
  const first = Math.floor(Math.log10(from));
  const last = Math.ceil(Math.log10(to));
  for (const steps of [[1, 1.5, 2, 3, 4, 5, 6, 8], [1, 2, 3, 5], [1, 2, 5], [1, 3], [1]]) {
    const ticks: number[] = [];
    for (let k = first; k <= last; k++)
      for (const step of steps) {
        const value = step * 10 ** k;
        if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9)) ticks.push(value);
      }
    if (ticks.length <= most) return ticks;
  }
  return [10 ** first, 10 ** last].filter((value) => value >= from && value <= to);
}
