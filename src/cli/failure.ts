/** What could not be done, on standard error, and the exit code that goes with it. */

import { visible } from '../../shared/words.ts';
import { EXIT, InputError, OutputError, type Terminal, UsageError } from './core.ts';

/**
 * One sentence; where in the code an error of the program itself arose is shown only when asked for.
 * @param about the folder that was worked on, or the program's name
 */
export function reportFailure(error: unknown, about: string, terminal: Terminal): number {
  if (error instanceof InputError) {
    terminal.err(`${visible(error.message)}\n`);
    return EXIT.data;
  }
  if (error instanceof OutputError) {
    terminal.err(`${visible(error.message)}\n`);
    return EXIT.output;
  }
  if (error instanceof UsageError) {
    terminal.err(`shoalwise: ${visible(error.message)}\n`);
    return EXIT.usage;
  }
  const message = error instanceof Error ? error.message : String(error);
  terminal.err(
    process.env.SHOALWISE_DEBUG
      ? `${about}: an error of the program itself: ${error instanceof Error ? error.stack : message}\n`
      : `${about}: an error of the program itself, nothing was written: ${message} (SHOALWISE_DEBUG=1 shows where)\n`,
  );
  return EXIT.program;
}
