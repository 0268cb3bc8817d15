/** Detections by perpendicular distance, ready to be drawn. Values by hand from tests/helpers/checked.ts. */

import { describe, expect, it } from 'vitest';
import type { ExpectedByDistance, SurveyResult } from '../../shared/result.ts';
import { type DistancePicture, readDistances } from '../../src/present/detection-function.ts';
import { checkedResult, loneDiver } from '../helpers/checked.ts';
import { nothingFound } from '../helpers/result.ts';

function changed(by: Partial<ExpectedByDistance>): SurveyResult {
  const result = checkedResult();
  Object.assign(result.expectedDetections?.byDistance ?? {}, by);
  return result;
}
function pictureOf(...args: Parameters<typeof readDistances>): DistancePicture {
  const picture = readDistances(...args);
  if (picture === null) throw new Error('no picture');
  return picture;
}

describe('classes', () => {
  it('have what was detected, what is expected, and the detection function at their middle', () => {
    const { classes, halfWidthM } = pictureOf(checkedResult());
    expect(halfWidthM).toBe(1);
    // 100 × 0.5981440 × 0.9802/2.9952 = 19.57; g(0.1) = e^−0.02 = 0.980
    expect(classes[0]).toMatchObject({
      name: '0 m to 0.2 m',
      observedText: '25',
      expectedText: '19.6',
      detectionText: '98 %',
    });
    // g(0.5) = e^−½ = 0.6065
    expect(classes[2]?.detectionText).toBe('60.7 %');
  });

  it('are in feet for readers of feet', () => {
    // 0.2 m are 0.656 ft
    expect(pictureOf(checkedResult(), 'imperial').classes[0]?.name).toBe('0 ft to 0.66 ft');
  });
});

describe('bars', () => {
  it('are as high as detections per metre, whatever the width of their class', () => {
    const { heightAxis, classes, note } = pictureOf(
      changed({
        classes: [
          { fromM: 0, toM: 0.25, observed: 20, expected: 19 },
          { fromM: 0.25, toM: 0.75, observed: 30, expected: 31 },
        ],
        takenByClass: true,
      }),
    );
    // by hand: 20/0.25 and 30/0.5
    expect(classes.map((c) => c.observedPerLength)).toEqual([80, 60]);
    expect(heightAxis).toBe('detections per m');
    expect(note).toContain('took each distance by its class');
    expect(note).not.toContain('rounded');
  });

  it('are per foot for readers of feet', () => {
    const picture = pictureOf(checkedResult(), 'imperial');
    // 25 detections in 0.2 m, a foot is 0.3048 m: 125 × 0.3048
    expect(picture.classes[0].observedPerLength).toBeCloseTo(38.1, 12);
    expect(picture.expectedAtOne).toBeCloseTo(30.48, 12);
    expect(picture.heightAxis).toBe('detections per ft');
  });
});

describe('the line', () => {
  it('is expected detections per metre, and the detection function on another scale', () => {
    const picture = pictureOf(checkedResult());
    expect(picture.expectedAtOne).toBeCloseTo(100, 12);
    expect(picture.curve[0]).toEqual({ distanceM: 0, expectedPerLength: 100 });
    expect(picture.symbol).toBe('g(y)');
    expect(picture.note).toContain(
      'the detection function g(y), half-normal: the observers of a transect together, as a share of what they detect on the line',
    );
  });

  it('is the pair’s p* under full independence', () => {
    const picture = pictureOf(changed({ independence: 'full', shape: 'hazard-rate' }));
    expect(picture.symbol).toBe('p*(y)');
    expect(picture.note).toContain(
      'the detection function p*(y), hazard-rate: the probability that the observers of a transect together detect a cluster',
    );
  });

  it('says that it is flat, and that widths differ', () => {
    expect(pictureOf(changed({ shape: 'flat' })).note).toContain('does not fall within the strip');
    const several = pictureOf(changed({ perMetreAtOne: null }));
    expect(several.expectedAtOne).toBeNull();
    expect(several.note).toContain('Transects differ in width');
  });
});

it('does not exist without distance transects, or when nothing was detected', () => {
  expect(readDistances(loneDiver())).toBeNull();
  expect(readDistances(nothingFound())).toBeNull();
});
