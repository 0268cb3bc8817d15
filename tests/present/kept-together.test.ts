/** Numbers and their units on one line; by hand. */

import { expect, it } from 'vitest';
import { keptTogether } from '../../src/present/kept-together.ts';

it.each([
  ['some 12 h 30 min of diving', 'some 12_h_30_min of diving'],
  ['7.0 m, 9.5 ft, 3 ft², 12 m³ and 95 %', '7.0_m, 9.5_ft, 3_ft², 12_m³ and 95_%'],
  ['simulated 15 % ± 1.1 %', 'simulated 15_% ±_1.1_%'],
  // no units: words that begin with their letters
  [
    '20 more, 3 hours, 5 metres, 2 sheets, 4 minutes',
    '20 more, 3 hours, 5 metres, 2 sheets, 4 minutes',
  ],
])('%s', (text, kept) => {
  expect(keptTogether(text)).toBe(kept.replaceAll('_', '\u00a0'));
});
