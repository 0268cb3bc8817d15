/** Who found it, as crews write it: initials, first names, numbers of observers. By hand. */

import { describe, expect, it } from 'vitest';
import { whichOf } from '../../../src/import/tables/people.ts';
import { comeIn, utf8 } from './disguised.ts';

const TRANSECTS =
  'Transect,Date,Primary diver,Secondary diver,Length (m),Start lat,Start lon\nA1,2026-07-01,Ines Alvarez,Tom Berg,30,44.41,-84.96\nA2,2026-07-01,Tom Berg,Ines Alvarez,30,44.42,-84.95\n';
const HABITAT =
  'Transect,Distance (m),Substrate,Plants (0-4),Depth (m)\nA1,0,sand,1,1\nA2,0,rock,0,1\n';
const found = (who: string[]) =>
  `Transect,Seen by,Distance (m),Count\nA1,${who[0]},3,1\nA1,${who[1]},4,2\nA2,${who[2]},5,1\nA2,${who[3]},6,1\n`;

describe('who found it', () => {
  it.each([
    ['initials', ['IA', 'TB', 'IA', 'TB'], ['primary', 'secondary', 'secondary', 'primary']],
    [
      'first names',
      ['Ines', 'Tom', 'Ines', 'tom'],
      ['primary', 'secondary', 'secondary', 'primary'],
    ],
    [
      'numbers',
      ['Obs 1', 'Obs 2', 'Obs2', 'Obs 1'],
      ['primary', 'secondary', 'secondary', 'primary'],
    ],
  ])('by %s', async (_, who, roles) => {
    const { outcome } = await comeIn({
      'dives.csv': utf8(TRANSECTS),
      'bottom.csv': utf8(HABITAT),
      'found.csv': utf8(found(who)),
    });
    expect(outcome.findings).toEqual([]);
    expect(outcome.tables.detections.map(({ cells }) => cells.role)).toEqual(roles);
  });

  it('words that nobody knows are asked, and not kept aside', async () => {
    const { questions } = await comeIn({
      'dives.csv': utf8(TRANSECTS),
      'bottom.csv': utf8(HABITAT),
      'found.csv': utf8(found(['red', 'blue', 'red', 'blue'])),
    });
    const asked = questions.find(({ id }) => id === 'detections.role');
    expect(asked?.kind === 'matching' && asked.keys.map(({ key }) => key)).toEqual(['red', 'blue']);
  });

  it('what both may be called is nobody, and full names answer to initials in the sheets', () => {
    const pair = (primary: string, secondary: string) => ({ primary, secondary });
    expect(whichOf('AB', pair('Ann Bell', 'Al Bo'))).toBeNull();
    expect(whichOf('Ann', pair('Ann Bell', 'Ann Orr'))).toBeNull();
    expect(whichOf('I.A.', pair('Ines Alvarez', 'Tom Berg'))).toBe('primary');
    expect(whichOf('Tom Berg', pair('IA', 'TB'))).toBe('secondary');
    expect(whichOf('Max', pair('Ines Alvarez', 'Tom Berg'))).toBeNull();
  });
});

it('both observers in one cell, and a column of counts for each', async () => {
  const { outcome, open } = await comeIn({
    'dives.csv': utf8(
      'Site,Date,Crew,Tape (m),Start lat,Start lon\n1,2026-07-01,Ines/Tom,30,44.41,-84.96\n2,2026-07-01,Tom & Ines,30,44.42,-84.95\n3,2026-07-01,Ines/-,30,44.43,-84.95\n',
    ),
    'bottom.csv': utf8(HABITAT.replaceAll('A', '')),
    'found.csv': utf8(
      'Site,Distance (m),Diver 1 count,Diver 2 count\n1,3,4,\n1,7,,2\n2,5,1,3\n2,9,2,0\n',
    ),
  });
  expect(open).toContain('transects.columns');
  expect(outcome.findings).toEqual([]);
  expect(
    outcome.tables.transects.map(({ cells }) => [cells.primary, cells.secondary, cells.length_m]),
  ).toEqual([
    ['Ines', 'Tom', '30'],
    ['Tom', 'Ines', '30'],
    ['Ines', '', '30'],
  ]);
  // at 5 m both found some: a row for each; the 0 at 9 m says nothing
  expect(
    outcome.tables.detections.map(({ cells }) => [
      cells.transect,
      cells.distance_m,
      cells.role,
      cells.count,
    ]),
  ).toEqual([
    ['1', '3', 'primary', '4'],
    ['1', '7', 'secondary', '2'],
    ['2', '5', 'primary', '1'],
    ['2', '5', 'secondary', '3'],
    ['2', '9', 'primary', '2'],
  ]);
});

it('a design beside its label is no header of a table below it', async () => {
  const sheet = [
    'Transect:,B1,,Date:,2026-07-01',
    'Observer 1:,Ann,,Observer 2:,Ben',
    'Length (m):,30,,Type:,distance',
    ',,,,',
    'Distance (m),Bottom type,Plants (0-4),Depth (m),,Distance (m),Seen by,Offset (m),Count',
    '0,Sand,1,1.2,,4.5,Obs 1,0.4,2',
    '12,Gravel,0,2.1,,9,Obs 2,0.1,1',
  ].join('\n');
  const { outcome, open } = await comeIn({ 'B1.csv': utf8(sheet) });
  expect(open.filter((id) => id.startsWith('habitat.columns'))).toEqual(['habitat.columns']);
  expect(outcome.findings.map(({ column }) => column)).toEqual(['start_lat', 'start_lon']);
  expect(outcome.tables.transects[0].cells).toMatchObject({ transect: 'B1', design: 'distance' });
  expect(outcome.tables.habitat.map(({ cells }) => cells.depth_m)).toEqual(['1.2', '2.1']);
});
