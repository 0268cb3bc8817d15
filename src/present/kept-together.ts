/** What must not be parted at the end of a line. */

const UNITS = '%|m[²³]?|km|cm|ha|ft²?|acres|acre-feet|min|h|s|kB|MB';
const BEFORE_UNIT = new RegExp(`(\\d) (?=(?:${UNITS})(?![\\p{L}²³]))`, 'gu');
const HOURS_AND_MINUTES = /(\d\u00a0h) (?=\d+\u00a0min)/g;
const GIVE_OR_TAKE = /± (?=\d)/g;

/** A number and its unit stay on one line: `7.0 m`, `95 %`, `12 h 30 min`, `± 1 %`. */
export function keptTogether(text: string): string {
  return text
    .replace(BEFORE_UNIT, '$1\u00a0')
    .replace(HOURS_AND_MINUTES, '$1\u00a0')
    .replace(GIVE_OR_TAKE, '±\u00a0');
}
