/** Labels as spreadsheets maim them: 3-4 becomes 4-Mar or 03-Apr. */

const MONTH = '(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*';
const DAY_MONTH = new RegExp(`^\\d{1,2}[-. ]${MONTH}([-. ]\\d{2,4})?$`, 'i');
const MONTH_DAY = new RegExp(`^${MONTH}[-. ]\\d{1,4}$`, 'i');

export function looksLikeSpreadsheetDate(label: string): boolean {
  return DAY_MONTH.test(label) || MONTH_DAY.test(label);
}
