/** Detected against expected clusters in words: names and groups from fields, figures by hand. */

import { describe, expect, it } from 'vitest';
import type { Estimate, ObservedByObserver } from '../../shared/estimate.ts';
import {
  observedByDepth,
  observedByObserver,
  observedBySubstrate,
} from '../../src/present/observed-expected.ts';

const NOTHING = { by_diver: [], by_substrate: [], by_depth: [] };
const of = (checks: Partial<Estimate['checks']>) => ({
  estimate: { checks: { ...NOTHING, ...checks } },
});

const who = (
  observer: string,
  role: ObservedByObserver['role'],
  design: ObservedByObserver['design'],
  observed = 1,
  expected = 1.25,
): ObservedByObserver => ({ label: 'not read', observer, role, design, observed, expected });

describe('by observer', () => {
  it('names the role, whatever the name looks like', () => {
    const table = observedByObserver(
      of({
        by_diver: [who('Ines', 'primary', 'belt'), who('O, primary, belt', 'secondary', 'belt')],
      }),
    )!;
    expect(table.title).toBe('Detected and expected clusters by observer');
    expect(table.column).toBe('Observer');
    expect(table.groups).toHaveLength(1);
    expect(table.groups[0].heading).toBeNull();
    expect(table.groups[0].rows.map((r) => r.name)).toEqual([
      'Ines, primary',
      'O, primary, belt, secondary',
    ]);
  });

  it('groups by design where a survey has both, with names of their own', () => {
    const table = observedByObserver(
      of({
        by_diver: [
          who('Ines', 'primary', 'distance'),
          who('Ines', 'primary', 'belt', 1234, 1250.4),
        ],
      }),
    )!;
    expect(table.groups.map((g) => [g.heading, g.rows.map((r) => [r.label, r.name])])).toEqual([
      ['Belt transects', [['Ines, primary', 'Ines, primary, belt']]],
      ['Distance transects', [['Ines, primary', 'Ines, primary, distance']]],
    ]);
    expect(table.described).toBe(
      'Belt transects: Ines, primary: 1,234 detected, 1,250 expected. Distance transects: Ines, primary: 1 detected, 1.3 expected.',
    );
  });
});

it('by substrate, mixtures as they stand', () => {
  const table = observedBySubstrate(
    of({
      by_substrate: [{ label: 'x', substrate: 'sand+gravel', observed: 3, expected: 99.96 }],
    }),
  )!;
  expect(table.groups[0].rows[0]).toMatchObject({ name: 'sand and gravel', expectedText: '100' });
});

it('by depth, in feet for readers of feet', () => {
  const checks = of({
    by_depth: [{ label: 'x', depth_from_m: 2, depth_to_m: 3, observed: 1, expected: 1 }],
  });
  expect(observedByDepth(checks)!.groups[0].rows[0].name).toBe('2–3 m');
  // 2 m are 6.56 ft, 3 m are 9.84 ft
  expect(observedByDepth(checks, 'imperial')!.groups[0].rows[0].name).toBe('7–10 ft');
});

it('is null where nothing was compared', () => {
  for (const read of [observedByObserver, observedBySubstrate, observedByDepth])
    expect(read(of({}))).toBeNull();
});
