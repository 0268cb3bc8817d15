/** Which keys take a change back and make it again, and which reasons are offered again. */

import { describe, expect, it } from 'vitest';
import { undoKey } from '../../src/app/state/undo-keys.ts';
import { reasonsOffered } from '../../src/app/stations/survey/ReasonField.tsx';

describe('a key press', () => {
  const none = { ctrlKey: false, metaKey: false, shiftKey: false, altKey: false };
  it.each([
    [{ ...none, key: 'z', ctrlKey: true }, 'undo'],
    [{ ...none, key: 'z', metaKey: true }, 'undo'],
    [{ ...none, key: 'Z', ctrlKey: true, shiftKey: true }, 'redo'],
    [{ ...none, key: 'Z', metaKey: true, shiftKey: true }, 'redo'],
    [{ ...none, key: 'y', ctrlKey: true }, 'redo'],
    [{ ...none, key: 'z' }, null],
    [{ ...none, key: 'z', ctrlKey: true, altKey: true }, null],
    [{ ...none, key: 'a', ctrlKey: true }, null],
  ])('%o asks for %s', (press, wanted) => {
    expect(undoKey(press)).toBe(wanted);
  });
});

it('offers the reasons of earlier corrections first, the latest on top, each once; not those of choices', () => {
  const given = reasonsOffered([
    { row: 3, reason: 'sheet read again' },
    { row: 4, reason: 'typing error, checked on the sheet' },
    { row: null, reason: 'choice of the analysis' },
    { row: 5, reason: 'sheet read again' },
  ]);
  expect(given.slice(0, 2)).toEqual(['sheet read again', 'typing error, checked on the sheet']);
  expect(new Set(given).size).toBe(given.length);
  expect(given).not.toContain('choice of the analysis');
});
