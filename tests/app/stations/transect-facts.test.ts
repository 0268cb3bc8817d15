/** What the Transects station says. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { PlacedTransect, Residual, Survey } from '../../../shared/survey.ts';
import {
  neighbour,
  placingWords,
  ropeRows,
  surveyFacts,
  writtenRopes,
} from '../../../src/app/stations/transects/transect-facts.ts';

const transect = (label: string, lengthM: number) => ({
  transect: label,
  date: '2026-07-01',
  primary: 'Ada',
  secondary: label === 'A' ? 'Ben' : null,
  lengthM,
});

const survey = {
  transects: [transect('A', 30), transect('B', 20)],
  habitat: [
    { transect: 'A', depthM: 1.5 },
    { transect: 'A', depthM: 4 },
    { transect: 'B', depthM: 0.5 },
  ],
  detections: [
    { transect: 'A', count: 3 },
    { transect: 'A', count: 1 },
  ],
} as unknown as Survey;
const segments = [
  { transect: 'A', areaM2: 29 },
  { transect: 'B', areaM2: 19.5 },
];

it('adds up the survey', () => {
  expect(surveyFacts(survey, segments)).toEqual({
    ropes: 2,
    ropeM: 50,
    areaM2: 48.5,
    fromM: 0.5,
    toM: 4,
    clusters: 2,
    mussels: 4,
    emptyRopes: 1,
  });
});

it('knows how many ropes were written down, faulty ones among them', () => {
  const rows = [
    { row: 2, cells: ['A', 'x'] },
    { row: 3, cells: ['', ' '] },
    { row: 4, cells: ['', 'y'] },
  ];
  expect(writtenRopes([{ file: 'transects.csv', header: ['transect', 'date'], rows }])).toBe(2);
  expect(writtenRopes([])).toBe(0);
});

const residual = (of: Residual['of'], value: number, se: number): Residual => ({
  of,
  value,
  se,
  flagged: value > 3 * se,
});

function placed(over: Partial<PlacedTransect> = {}): PlacedTransect {
  return {
    transect: transect('A', 30),
    profile: { distanceM: [0, 30], depthM: [1.5, 4], horizontalM: [0, 29.9] },
    endInferred: false,
    residuals: [residual('start', 2, 2.5), residual('end', 2, 2.5), residual('bearing', 1.24, 2)],
    startSeM: 2.91,
    endSeM: 2.91,
    ...over,
  } as unknown as PlacedTransect;
}

it('has a row a rope', () => {
  expect(ropeRows([placed()], segments, survey)).toEqual([
    {
      transect: 'A',
      date: '2026-07-01',
      divers: 'Ada, Ben',
      fromM: 1.5,
      toM: 4,
      areaM2: 29,
      clusters: 2,
      mussels: 4,
      flagged: false,
    },
  ]);
});

describe('how a rope was placed, in words', () => {
  it('when waypoints and bearing agree', () => {
    expect(placingWords(placed(), 'metric')).toEqual([
      'To agree with each other, each waypoint was moved 2 m and the bearing was turned 1.2°.',
      'That is within what the GPS and the compass are good for.',
      'Both ends are then known to about 2.9 m each way.',
    ]);
  });

  it('when they do not: by how many standard errors, and what to look for', () => {
    const far = placed({
      residuals: [residual('start', 10, 2.5), residual('end', 10, 2.5), residual('bearing', 4, 2)],
    });
    const words = placingWords(far, 'us').join(' ');
    // 10 m are 32.8 ft; 10/2.5 = 4
    expect(words).toContain('moved 33 ft');
    expect(words).toContain('(4.0 standard errors, 3 at most expected)');
    // how well the ends are known holds only where the readings agree
    expect(words).not.toContain('known to about');
    expect(ropeRows([far], segments, survey)[0]!.flagged).toBe(true);
  });

  it('without a bearing, and without an end waypoint', () => {
    const noBearing = placed({ residuals: [residual('start', 2, 2.5), residual('end', 2, 2.5)] });
    expect(placingWords(noBearing, 'metric')[0]).toBe(
      'To agree with a rope of 30 m, each waypoint was moved 2 m; no bearing was recorded.',
    );
    const noEnd = placed({ residuals: [], endInferred: true, endSeM: 4.4 });
    expect(placingWords(noEnd, 'metric')).toEqual([
      'No end waypoint was recorded: the end follows from the bearing and the rope, to about 4.4 m each way.',
    ]);
  });
});

it('goes from rope to rope and stops at the ends', () => {
  const labels = ['A', 'B', 'C'];
  expect(neighbour(labels, 'A', 1)).toBe('B');
  expect(neighbour(labels, 'C', 1)).toBe('C');
  expect(neighbour(labels, 'A', -1)).toBe('A');
  expect(neighbour(labels, null, 1)).toBe('A');
  expect(neighbour(labels, 'gone', -1)).toBe('C');
  expect(neighbour([], null, 1)).toBeNull();
});
