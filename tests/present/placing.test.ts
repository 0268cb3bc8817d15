/** How a transect was placed, in words. Values by hand. */

import { describe, expect, it } from 'vitest';
import type { PlacedTransect, Residual } from '../../shared/survey.ts';
import { placing } from '../../src/present/placing.ts';
import { handMadeResult } from '../helpers/result.ts';

const residual = (of: Residual['of'], value: number, se: number): Residual => ({
  of,
  value,
  se,
  flagged: value > 3 * se,
});

function placed(over: Partial<PlacedTransect> = {}): PlacedTransect {
  const [first] = handMadeResult().placed;
  if (first === undefined) throw new Error('the helper has placed transects');
  return {
    ...first,
    endInferred: false,
    residuals: [residual('start', 2, 2.5), residual('end', 2, 2.5), residual('bearing', 1.24, 2)],
    startSeM: 2.91,
    endSeM: 2.91,
    ...over,
  };
}

describe('how a transect was placed', () => {
  it('when waypoints and bearing agree', () => {
    expect(placing(placed())).toEqual({
      text: 'To agree with each other, each waypoint was moved 2 m and the bearing was turned 1.2°. That is within what the GPS and the compass are good for. Both ends are then known to about 2.9 m each way.',
      doubtful: false,
    });
    expect(placing(placed({ endSeM: 4.44 })).text).toContain(
      'The start is then known to about 2.9 m each way, the end to 4.4 m.',
    );
  });

  it('when they do not: by how many standard errors, and what to look for', () => {
    const far = placed({
      residuals: [residual('start', 10, 2.5), residual('end', 10, 2.5), residual('bearing', 4, 2)],
    });
    const { text, doubtful } = placing(far, 'imperial');
    expect(doubtful).toBe(true);
    // 10 m are 32.8 ft; 10/2.5 = 4
    expect(text).toContain('moved 33 ft');
    expect(text).toContain('(4.0 standard errors, 3 at most expected)');
    // how well the ends are known holds only where the readings agree
    expect(text).not.toContain('known to about');
  });

  it('without a bearing, and without an end waypoint', () => {
    const noBearing = placed({ residuals: [residual('start', 2, 2.5), residual('end', 2, 2.5)] });
    expect(placing(noBearing).text).toMatch(
      /^To agree with a rope of 30 m, each waypoint was moved 2 m; no bearing was recorded\./,
    );
    expect(placing(placed({ residuals: [], endInferred: true, endSeM: 4.4 })).text).toBe(
      'No end waypoint was recorded: the end follows from the bearing and the length of the rope, to about 4.4 m each way.',
    );
  });
});
