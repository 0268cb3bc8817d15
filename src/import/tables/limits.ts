/** What is still a table of a survey. Beyond it a file is something else, or was made to fill the memory. */

/** A survey's tables have some twenty columns, a wide sheet a few dozen. */
export const MOST_COLUMNS = 1000;
/** A million soundings with five columns; some seconds and 500 MB of memory. */
export const MOST_CELLS = 5_000_000;
/** Unpacked parts of a workbook together; a text of half a gigabyte is the longest that a JavaScript engine holds. */
export const MOST_UNPACKED_BYTES = 256 * 2 ** 20;
