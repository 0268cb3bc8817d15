/** What the help of several commands has in common. */

import { Option } from 'commander';
import { MOST_ERRORS_OF_A_KIND, MOST_NOTICES_OF_A_KIND } from './finding-lines.ts';
import { wholeNumber } from './options.ts';

export const EXIT_CODES = `
Exit codes: 0 done, with or without notices; 2 errors in the data; 64 a wrong
command line; 74 the results cannot be written; 1 an error of the program itself
(SHOALWISE_DEBUG=1 shows where).`;

export const ON_FINDINGS =
  'Errors and notices go to standard error, one a line: FILE row N, column: message. An error stops the estimate, a notice does not and says what was done.';

export function threads(): Option {
  return new Option(
    '--threads <T>',
    'threads to use; the numbers are the same (default: one a core)',
  ).argParser(wholeNumber('--threads', 1));
}

export function listAll(): Option {
  return new Option(
    '--list-all',
    `list each error and notice; without it, of more than ${MOST_NOTICES_OF_A_KIND} notices of a kind in one column the first stands for all, and of errors those after the first ${MOST_ERRORS_OF_A_KIND} are counted`,
  );
}

export function examples(...lines: string[]): string {
  const title = lines.length === 1 ? 'Example' : 'Examples';
  return `\n${title}:\n${lines.map((line) => `  shoalwise ${line}\n`).join('')}${EXIT_CODES}`;
}
