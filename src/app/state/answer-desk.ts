/** Where a question is answered, by its identifier. */

import type { Answer } from '../../../shared/importing.ts';

export interface AnswerDesk {
  answer(id: string, answer: Answer): void;
  /** takes what is proposed */
  accept(id: string): void;
  /** the question is open again */
  withdraw(id: string): void;
}
