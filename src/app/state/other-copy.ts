/** The copy that the open survey is compared with: kept while the page is, whatever station is shown. */

export interface OtherCopy {
  name: string;
  files: Map<string, Uint8Array>;
  /** rows of it that were looked at and not taken */
  left: Set<string>;
}

let kept: { survey: string; other: OtherCopy } | null = null;

export function otherCopyOf(survey: string): OtherCopy | null {
  return kept !== null && kept.survey === survey ? kept.other : null;
}

export function keepOtherCopy(survey: string, other: OtherCopy | null): void {
  kept = other === null ? null : { survey, other };
}
