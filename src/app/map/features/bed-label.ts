/** The substrate of a patch or segment as the map tells it apart: classes in the order of the survey's list. */

export interface BedLabel {
  /** names a pattern, a filter and a row of strata: `sand+gravel` */
  label: string;
  classes: readonly string[];
}

export function bedLabel(substrate: readonly string[], order: readonly string[]): BedLabel {
  const classes = [...substrate].sort((a, b) => order.indexOf(a) - order.indexOf(b));
  return { label: classes.join('+'), classes };
}

/** Each label once, by its first class, simple ones before mixtures. */
export function distinctLabels(all: readonly BedLabel[], order: readonly string[]): BedLabel[] {
  const rank = ({ classes }: BedLabel): number => order.indexOf(classes[0] ?? '');
  return [...new Map(all.map((bed) => [bed.label, bed])).values()].sort(
    (a, b) => rank(a) - rank(b) || a.label.length - b.label.length || (a.label < b.label ? -1 : 1),
  );
}

/** Name of the pattern's image in the map's style. */
export function patternName(label: string): string {
  return `bed:${label}`;
}
