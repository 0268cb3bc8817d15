/** Treatment areas and upper limits; figures by hand. */

import { describe, expect, it } from 'vitest';
import { upperLimits } from '../../src/present/limits.ts';
import { treatmentAreas, treatmentCard } from '../../src/present/treatments.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

describe('treatment areas', () => {
  it('show area, what is outside, mussels, and their share of all', () => {
    const areas = treatmentAreas(handMadeResult())!;
    // 20,000 m² = 4.94 acres; 2,700 of 184,321 = 1.46 %
    expect(areas.rows).toEqual([
      {
        name: 'North <bay>',
        area: '2.00',
        acres: '4.94',
        outside: '0.050',
        mussels: ['2,700', '1,700 to 4,100'],
        share: '1.5 %',
      },
    ]);
    expect(areas.note).toBe(
      'Share: of the mussels on all of the surveyed habitat. Outside: bed of the area that is outside the surveyed ' +
        'habitat; its mussels are not counted here.',
    );
  });

  it('are objects with a name and their numbers', () => {
    expect(treatmentCard(handMadeResult(), 0, 'metric')).toEqual({
      title: 'North <bay>',
      lines: [
        '2,700 mussels (1,700 to 4,100)',
        '1.5 % of those on the surveyed habitat',
        '2.00 ha of surveyed habitat',
        '0.050 ha outside of it, not counted',
      ],
    });
    expect(treatmentCard(handMadeResult(), 7, 'metric')).toBeNull();
  });

  it('say nothing of an outside that no area has', () => {
    const result = handMadeResult();
    result.estimate.treatments![0].outside_area_m2 = 0;
    const { rows, note } = treatmentAreas(result)!;
    expect(rows[0].outside).toBeNull();
    expect(note).not.toContain('Outside');
  });

  it('give a limit of clusters where nothing was detected', () => {
    const result = nothingFound();
    const none = { estimate: 0, se: null, cv: null, lower: 0 };
    Object.assign(result.estimate.treatments![0], {
      clusters: { ...none, upper: 669.4 },
      mussels: { ...none, upper: null },
    });
    expect(treatmentAreas(result)!.rows[0]).toMatchObject({
      mussels: ['none detected', 'up to 670 clusters'],
      share: '–',
    });
  });

  it('have dashes outside of the surveyed habitat', () => {
    const result = handMadeResult();
    Object.assign(result.estimate.treatments![0], { area_m2: 0, clusters: null, mussels: null });
    expect(treatmentAreas(result)!.rows[0]).toMatchObject({
      area: '0',
      mussels: ['–', '–'],
      share: '–',
    });
  });

  it('are none without a lake', () => {
    expect(treatmentAreas(withoutLake())).toBeNull();
  });
});

describe('upper limits', () => {
  it('name the class and what it can still hold', () => {
    expect(upperLimits(handMadeResult())).toEqual({
      rows: [{ name: 'silt', clusters: '0.034', mussels: '0.091' }],
      note: '95 % upper limits. Nothing detected does not show that there are none.',
    });
  });

  it('have a dash for mussels where their number per cluster is not known', () => {
    const result = handMadeResult();
    result.estimate.upper_limits[0].mussels_per_m2 = null;
    expect(upperLimits(result)!.rows[0].mussels).toBe('–');
  });

  it('are none where something was detected on every class', () => {
    const result = handMadeResult();
    result.estimate.upper_limits = [];
    expect(upperLimits(result)).toBeNull();
  });
});
