/** Small helpers for text on the page. */

/** A number and its unit stay on one line: `7.0 m`, `95 %`. */
export function keptTogether(text: string): string {
  return text.replace(/(\d) (?=(?:%|m²|m|ha|ft²|ft|acres)(?![a-z²]))/g, '$1\u00a0');
}
