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

/** What a disk answered, in words where there are some. */
export function whyUnwritten(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return REASONS[code ?? ''] ?? message;
}

const REASONS: Record<string, string> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is used up',
  EROFS: 'the disk can only be read',
  EACCES: 'it is not allowed to write there',
  EPERM: 'it is not allowed to write there',
  ENOENT: 'no folder can be made there',
  ENOTDIR: 'a part of the path is a file',
  EEXIST: 'a part of the path is a file',
  ENAMETOOLONG: 'the name is too long',
};
